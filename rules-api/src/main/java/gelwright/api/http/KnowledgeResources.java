package gelwright.api.http;

import com.fasterxml.jackson.core.JsonGenerator;
import gelwright.ingredient.Acid;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.ingredient.HeatLimit;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.InhibitoryLevel;
import gelwright.ingredient.Known;
import gelwright.ingredient.Source;
import gelwright.ingredient.Trait;
import gelwright.problem.Spelling;
import gelwright.quantity.Estimate;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.rule.Rule;
import gelwright.rule.RuleSet;
import gelwright.rule.Table;
import gelwright.rule.Text;
import gelwright.sheets.Bundled;
import gelwright.sheets.RuleSheet;
import java.io.IOException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;

/** The knowledge, to be looked at: rules, ingredients, textures, sources, schemas. */
final class KnowledgeResources {
  private static final List<MediaType> FORMS = List.of(MediaType.JSON);
  static final List<String> SCHEMAS =
      List.of(
          "batch-sheet",
          "calibration",
          "comparison",
          "formula",
          "headroom",
          "ingredients",
          "label-draft",
          "prediction",
          "readings",
          "review",
          "rule-set",
          "sources",
          "stability-plan");
  private static final String TEXTURES = "texture-windows";

  private final KnowledgeStore store;

  KnowledgeResources(KnowledgeStore store) {
    this.store = store;
  }

  void rules(Exchange exchange) {
    resource(exchange, "rules", KnowledgeResources::rules);
  }

  void rule(Exchange exchange) {
    String id = exchange.parameter("id");
    KnowledgeStore.Snapshot knowledge = store.current();
    List<String> known = new ArrayList<>();
    for (RuleSet set : knowledge.ruleSets()) {
      for (Rule rule : set.rules()) {
        String full = set.id() + "." + rule.id();
        known.add(full);
        if (full.equals(id) || rule.aliases().contains(id)) {
          resource(exchange, "rules/" + full, one -> rule(one, set, rule));
          return;
        }
      }
    }
    throw notFound("There is no such rule.", id, known);
  }

  void ingredients(Exchange exchange) {
    Map<String, String> query = exchange.query(Set.of("find"));
    String text = query.getOrDefault("find", "").strip().toLowerCase(Locale.ROOT);
    if (query.containsKey("find") && (text.isEmpty() || text.length() > 100)) {
      throw Trouble.of(
          ProblemType.MALFORMED_REQUEST, "The parameter find takes 1 to 100 characters.");
    }
    MediaType.best(exchange.header("Accept"), FORMS);
    KnowledgeStore.Snapshot knowledge = store.current();
    exchange.answer(
        text.isEmpty()
            ? knowledge
                .resources()
                .computeIfAbsent("ingredients", key -> json(ingredients(knowledge, "")))
            : json(ingredients(knowledge, text)));
  }

  void ingredient(Exchange exchange) {
    String name = exchange.parameter("name");
    KnowledgeStore.Snapshot knowledge = store.current();
    Optional<Ingredient> found = knowledge.library().catalogue().find(name);
    if (found.isEmpty()) {
      List<String> closest =
          name.length() > 100 ? List.of() : knowledge.library().catalogue().closest(name, 3);
      throw Trouble.of(
          ProblemType.NOT_FOUND,
          "No ingredient is called so."
              + (closest.isEmpty() ? "" : " Nearest: " + String.join(", ", closest) + "."));
    }
    resource(exchange, "ingredients/" + found.get().name(), one -> ingredient(one, found.get()));
  }

  void textures(Exchange exchange) {
    resource(exchange, "textures", KnowledgeResources::textures);
  }

  void sources(Exchange exchange) {
    resource(
        exchange,
        "sources",
        knowledge -> json -> sources(json, knowledge.library().catalogue().sources()));
  }

  void schemas(Exchange exchange) {
    resource(
        exchange,
        "schemas",
        knowledge ->
            json -> {
              json.writeArrayFieldStart("schemas");
              for (String name : SCHEMAS) {
                json.writeStartObject();
                json.writeStringField("name", name);
                json.writeStringField("href", "/v1/schemas/" + name);
                json.writeEndObject();
              }
              json.writeEndArray();
            });
  }

  void schema(Exchange exchange) {
    String name = exchange.parameter("name");
    if (!SCHEMAS.contains(name)) {
      throw notFound("There is no such schema.", name, SCHEMAS);
    }
    exchange.query(Set.of());
    MediaType form =
        MediaType.best(exchange.header("Accept"), List.of(MediaType.SCHEMA, MediaType.JSON));
    exchange.headerMore("Vary", "Accept");
    exchange.answer(
        store
            .current()
            .resources()
            .computeIfAbsent(
                "schemas/" + name + " " + form,
                key ->
                    new Representation(
                        Bundled.schema(name).getBytes(StandardCharsets.UTF_8), form)));
  }

  private static Trouble notFound(String what, String asked, List<String> known) {
    String hint = asked.length() > 100 ? "" : " " + Spelling.hint(asked, known);
    return Trouble.of(ProblemType.NOT_FOUND, (what + hint).strip());
  }

  private void resource(
      Exchange exchange, String key, Function<KnowledgeStore.Snapshot, Json.Part> content) {
    exchange.query(Set.of());
    MediaType.best(exchange.header("Accept"), FORMS);
    KnowledgeStore.Snapshot knowledge = store.current();
    exchange.answer(
        knowledge.resources().computeIfAbsent(key, name -> json(content.apply(knowledge))));
  }

  private static Representation json(Json.Part content) {
    return new Representation(Json.object(content), MediaType.JSON);
  }

  /** A part of an address; spaces as %20, slashes as they are. */
  private static String segment(String name) {
    return URLEncoder.encode(name, StandardCharsets.UTF_8).replace("+", "%20").replace("%2F", "/");
  }

  private static Json.Part rules(KnowledgeStore.Snapshot knowledge) {
    return json -> {
      json.writeArrayFieldStart("rule-sets");
      for (RuleSet set : knowledge.ruleSets()) {
        json.writeStartObject();
        json.writeStringField("id", set.id());
        json.writeStringField("title", set.title());
        json.writeStringField("edition", set.edition());
        json.writeArrayFieldStart("rules");
        for (Rule rule : set.rules()) {
          String id = set.id() + "." + rule.id();
          json.writeStartObject();
          json.writeStringField("id", id);
          json.writeStringField("title", rule.title().text());
          kind(json, rule);
          json.writeStringField("href", "/v1/rules/" + segment(id));
          json.writeEndObject();
        }
        json.writeEndArray();
        json.writeArrayFieldStart("changes");
        for (RuleSet.Change change : set.changes()) {
          change(json, set, change);
        }
        json.writeEndArray();
        json.writeEndObject();
      }
      json.writeEndArray();
    };
  }

  private static void kind(JsonGenerator json, Rule rule) throws IOException {
    json.writeStringField("kind", rule.kind().name().toLowerCase(Locale.ROOT));
    json.writeStringField("severity", rule.severity().word());
  }

  private static void change(JsonGenerator json, RuleSet set, RuleSet.Change change)
      throws IOException {
    json.writeStartObject();
    json.writeStringField("rule-set", set.id());
    json.writeStringField("rule", change.rule().text());
    json.writeStringField("how", change.how().name().toLowerCase(Locale.ROOT).replace('_', '-'));
    text(json, "when", change.when());
    text(json, "require", change.require());
    if (change.severity().isPresent()) {
      json.writeStringField("severity", change.severity().get().word());
    }
    json.writeStringField("because", change.because());
    json.writeEndObject();
  }

  private static Json.Part rule(KnowledgeStore.Snapshot knowledge, RuleSet set, Rule rule) {
    String id = set.id() + "." + rule.id();
    return json -> {
      json.writeStringField("id", id);
      json.writeStringField("rule-set", set.id());
      json.writeStringField("edition", set.edition());
      json.writeStringField("title", rule.title().text());
      kind(json, rule);
      text(json, "for-each", rule.forEach());
      text(json, "when", rule.when());
      text(json, "require", rule.require());
      json.writeStringField("message", rule.message().text());
      json.writeStringField("lesson", rule.lesson().strip());
      Json.strings(json, "levers", rule.levers().stream().map(Text::text).toList());
      json.writeBooleanField("always-known", rule.alwaysKnown());
      json.writeBooleanField("must-be-known", rule.mustBeKnown());
      json.writeBooleanField("keep-when-borderline", rule.keepWhenBorderline());
      json.writeBooleanField("may-be-accepted", rule.mayBeAccepted());
      Json.strings(json, "aliases", rule.aliases());
      json.writeNumberField("examples", examples(knowledge, set, rule));
      json.writeArrayFieldStart("changed-by");
      for (RuleSet other : knowledge.ruleSets()) {
        for (RuleSet.Change change : other.changes()) {
          if (change.rule().text().equals(id)) {
            change(json, other, change);
          }
        }
      }
      json.writeEndArray();
      sources(json, cited(knowledge, rule.sources().stream().map(Text::text).toList()));
    };
  }

  private static long examples(KnowledgeStore.Snapshot knowledge, RuleSet set, Rule rule) {
    long count = 0;
    for (RuleSheet sheet : knowledge.library().ruleSheets()) {
      if (sheet.ruleSet().id().equals(set.id())) {
        count += sheet.examples().stream().filter(one -> one.rule().equals(rule.id())).count();
      }
    }
    return count;
  }

  private static void text(JsonGenerator json, String field, Optional<Text> text)
      throws IOException {
    if (text.isPresent()) {
      json.writeStringField(field, text.get().text());
    }
  }

  private static List<Source> cited(KnowledgeStore.Snapshot knowledge, Collection<String> ids) {
    return ids.stream()
        .distinct()
        .flatMap(id -> knowledge.library().catalogue().source(id).stream())
        .toList();
  }

  private static void sources(JsonGenerator json, Collection<Source> sources) throws IOException {
    json.writeArrayFieldStart("sources");
    for (Source source : sources) {
      json.writeStartObject();
      json.writeStringField("id", source.id());
      json.writeStringField("citation", source.citation());
      json.writeStringField("standing", source.standing().word());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static Json.Part textures(KnowledgeStore.Snapshot knowledge) {
    return json -> {
      Set<String> cited = new LinkedHashSet<>();
      json.writeArrayFieldStart("textures");
      for (RuleSet set : knowledge.ruleSets()) {
        for (Table table : set.tables()) {
          if (!table.name().equals(TEXTURES)) {
            continue;
          }
          for (Table.Row row : table.rows()) {
            json.writeStartObject();
            json.writeStringField("texture", row.key());
            for (Map.Entry<String, Table.Cell> cell : new TreeMap<>(row.cells()).entrySet()) {
              if (cell.getValue() instanceof Table.Cell.Number number) {
                json.writeObjectFieldStart(cell.getKey());
                quantity(json, number.value());
                json.writeEndObject();
              }
            }
            List<String> ids = row.sources().stream().map(Text::text).toList();
            cited.addAll(ids);
            Json.strings(json, "cites", ids);
            json.writeEndObject();
          }
        }
      }
      json.writeEndArray();
      sources(json, cited(knowledge, cited));
    };
  }

  private static void quantity(JsonGenerator json, Quantity quantity) throws IOException {
    json.writeNumberField("value", quantity.value());
    json.writeStringField("unit", unit(quantity.unit()));
  }

  private static String unit(Unit unit) {
    return unit == Unit.NONE ? "1" : unit.symbol();
  }

  private static Json.Part ingredients(KnowledgeStore.Snapshot knowledge, String wanted) {
    return json -> {
      json.writeArrayFieldStart("ingredients");
      for (Ingredient ingredient : knowledge.library().catalogue().ingredients()) {
        Set<String> functions = ingredient.functions().toOptional().orElse(Set.of());
        if (matches(ingredient, functions, wanted)) {
          json.writeStartObject();
          json.writeStringField("name", ingredient.name());
          Json.strings(json, "synonyms", ingredient.synonyms());
          Json.strings(json, "functions", new TreeSet<>(functions));
          json.writeStringField("href", "/v1/ingredients/" + segment(ingredient.name()));
          json.writeEndObject();
        }
      }
      json.writeEndArray();
    };
  }

  private static boolean matches(Ingredient ingredient, Set<String> functions, String wanted) {
    return wanted.isEmpty()
        || ingredient.name().toLowerCase(Locale.ROOT).contains(wanted)
        || ingredient.synonyms().stream()
            .anyMatch(name -> name.toLowerCase(Locale.ROOT).contains(wanted))
        || functions.contains(wanted)
        || (!ingredient.cas().isEmpty() && ingredient.cas().equals(wanted));
  }

  private static Json.Part ingredient(KnowledgeStore.Snapshot knowledge, Ingredient ingredient) {
    return json -> {
      Set<String> cited = new LinkedHashSet<>();
      json.writeStringField("name", ingredient.name());
      Json.strings(json, "synonyms", ingredient.synonyms());
      if (!ingredient.cas().isEmpty()) {
        json.writeStringField("cas", ingredient.cas());
      }
      known(
          json,
          "functions",
          ingredient.functions(),
          functions -> {
            json.writeStartArray();
            for (String function : new TreeSet<>(functions)) {
              json.writeString(function);
            }
            json.writeEndArray();
          });
      known(json, "charge", ingredient.charge(), json::writeString);
      known(json, "dissolves", ingredient.dissolves(), json::writeString);
      json.writeObjectFieldStart("figures");
      for (Trait trait : Trait.values()) {
        if (ingredient.trait(trait).isPresent()) {
          json.writeFieldName(trait.key());
          figure(json, ingredient.trait(trait).get(), cited);
        }
      }
      json.writeEndObject();
      known(json, "acid", ingredient.acid(), acid -> acid(json, acid, cited));
      known(json, "heat", ingredient.heat(), limits -> heat(json, limits, cited));
      known(json, "gum", ingredient.gum(), gum -> gum(json, gum, cited));
      known(
          json,
          "hydration",
          ingredient.hydration(),
          data -> {
            json.writeStartObject();
            json.writeFieldName("rate");
            figure(json, data.rate(), cited);
            json.writeFieldName("activation-energy");
            figure(json, data.activationEnergy(), cited);
            json.writeEndObject();
          });
      known(json, "inhibitory", ingredient.inhibitory(), levels -> inhibitory(json, levels, cited));
      json.writeFieldName("hydrates");
      figures(json, ingredient.hydrates(), cited);
      Json.strings(json, "grades", ingredient.grades().keySet());
      json.writeObjectFieldStart("composition");
      for (var part : ingredient.composition().entrySet()) {
        json.writeStringField(part.getKey(), part.getValue().toString());
      }
      json.writeEndObject();
      if (!ingredient.note().isBlank()) {
        json.writeStringField("note", ingredient.note().strip());
      }
      sources(json, cited(knowledge, cited));
    };
  }

  @FunctionalInterface
  private interface Value<T> {
    void write(T value) throws IOException;
  }

  /** What is known: a value; that there is none, null; what is not known is left out. */
  private static <T> void known(JsonGenerator json, String field, Known<T> known, Value<T> value)
      throws IOException {
    if (known instanceof Known.Given<T> given) {
      json.writeFieldName(field);
      value.write(given.value());
    } else if (known instanceof Known.None<T>) {
      json.writeNullField(field);
    }
  }

  private static void figure(JsonGenerator json, Figure figure, Set<String> cited)
      throws IOException {
    cited.addAll(figure.sources());
    json.writeStartObject();
    json.writeNumberField("value", figure.unit().fromBase(figure.likely()));
    json.writeStringField("unit", unit(figure.unit()));
    if (figure.scale() == Estimate.Scale.FACTOR && figure.spread() > 1) {
      json.writeNumberField("within-factor", figure.spread());
    } else if (figure.scale() == Estimate.Scale.LINEAR && figure.spread() > 0) {
      json.writeNumberField("plus-minus", figure.unit().fromBase(figure.spread()));
    }
    Json.strings(json, "cites", figure.sources());
    json.writeEndObject();
  }

  private static void figures(JsonGenerator json, Map<String, Figure> figures, Set<String> cited)
      throws IOException {
    json.writeStartObject();
    for (Map.Entry<String, Figure> figure : figures.entrySet()) {
      json.writeFieldName(figure.getKey());
      figure(json, figure.getValue(), cited);
    }
    json.writeEndObject();
  }

  private static void acid(JsonGenerator json, Acid acid, Set<String> cited) throws IOException {
    json.writeStartObject();
    json.writeArrayFieldStart("pKa");
    for (Figure pKa : acid.pKa()) {
      figure(json, pKa, cited);
    }
    json.writeEndArray();
    if (!acid.parent().isEmpty()) {
      json.writeStringField("counts-as", acid.parent());
    }
    json.writeEndObject();
  }

  private static void heat(JsonGenerator json, List<HeatLimit> limits, Set<String> cited)
      throws IOException {
    json.writeStartArray();
    for (HeatLimit limit : limits) {
      json.writeStartObject();
      json.writeStringField("kind", limit.kind().word());
      json.writeFieldName("at-most");
      figure(json, limit.atMost(), cited);
      if (!limit.note().isEmpty()) {
        json.writeStringField("note", limit.note());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void gum(JsonGenerator json, Gum gum, Set<String> cited) throws IOException {
    json.writeStartObject();
    json.writeStringField("law", gum.law());
    json.writeNumberField("from", gum.from());
    json.writeNumberField("to", gum.to());
    json.writeStringField("unit", "%");
    json.writeFieldName("parameters");
    figures(json, new TreeMap<>(gum.parameters()), cited);
    json.writeEndObject();
  }

  private static void inhibitory(
      JsonGenerator json, List<InhibitoryLevel> levels, Set<String> cited) throws IOException {
    json.writeStartArray();
    for (InhibitoryLevel level : levels) {
      json.writeStartObject();
      json.writeStringField("group", level.group());
      json.writeFieldName("level");
      figure(json, level.level(), cited);
      json.writeStringField("basis", level.basis().name().toLowerCase(Locale.ROOT));
      if (level.atPH().isPresent()) {
        json.writeNumberField("at-pH", level.atPH().get());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
  }
}
