package gelwright.reference;

import gelwright.ingredient.Figure;
import gelwright.ingredient.Known;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** All figures of an ingredient, wherever they stand in it. */
final class FiguresOf {
  private FiguresOf() {}

  static List<Figure> all(Object part) {
    List<Figure> figures = new ArrayList<>();
    collect(part, figures);
    return figures;
  }

  private static void collect(Object part, List<Figure> into) {
    if (part instanceof Figure figure) {
      into.add(figure);
    } else if (part instanceof Known.Given<?> given) {
      collect(given.value(), into);
    } else if (part instanceof Optional<?> optional) {
      optional.ifPresent(value -> collect(value, into));
    } else if (part instanceof Collection<?> collection) {
      collection.forEach(value -> collect(value, into));
    } else if (part instanceof Map<?, ?> map) {
      map.values().forEach(value -> collect(value, into));
    } else if (part instanceof Record each && part.getClass().getName().startsWith("gelwright")) {
      for (RecordComponent component : each.getClass().getRecordComponents()) {
        try {
          Object value = component.getAccessor().invoke(each);
          if (value != null) {
            collect(value, into);
          }
        } catch (ReflectiveOperationException e) {
          throw new LinkageError(e.getMessage(), e);
        }
      }
    }
  }
}
