package gelwright.quantity;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * The units a formulator writes, each with its dimension and its size in the coherent base unit.
 *
 * <p>Conversion factors are exact by definition (BIPM, The International System of Units, 9th
 * edition 2019: prefixes of table 7, minute, hour, day and litre of table 8); a month is 1/12 of a
 * Gregorian year of 365.2425 days, as shelf lives are counted; 1 cP is 1 mPa·s.
 *
 * <p>The reciprocal units are kept apart by what they count: {@link #RPM} is turns of a stirrer,
 * and no conversion leads from it to a shear rate. {@link #CELSIUS} is a reading on the scale and
 * {@link #KELVIN} a difference; they do not convert into each other.
 */
public enum Unit {
  PERCENT("%", 1, Dimension.SHARE, "a share", "percent", "% w/w", "%w/w"),
  PPM("ppm", 1e-4, Dimension.SHARE, "a share", "mg/kg"),
  NONE("", 1, Dimension.NUMBER, "a plain number"),
  GRAM("g", 1e-3, Dimension.MASS, "a mass"),
  MILLIGRAM("mg", 1e-6, Dimension.MASS, "a mass"),
  KILOGRAM("kg", 1, Dimension.MASS, "a mass", "Kg"),
  MILLILITRE("mL", 1e-6, Dimension.VOLUME, "a volume", "ml"),
  LITRE("L", 1e-3, Dimension.VOLUME, "a volume", "l"),
  CELSIUS("°C", 1, Dimension.TEMPERATURE, "a temperature", "C", "degC", "℃", "ºC"),
  KELVIN("K", 1, Dimension.TEMPERATURE_DIFFERENCE, "a temperature difference"),
  SECOND("s", 1, Dimension.TIME, "a time", "sec", "second", "seconds"),
  MINUTE("min", 60, Dimension.TIME, "a time", "mins", "minute", "minutes"),
  HOUR("h", 3600, Dimension.TIME, "a time", "hr", "hour", "hours"),
  DAY("days", 86_400, Dimension.TIME, "a time", "day", "d"),
  WEEK("weeks", 604_800, Dimension.TIME, "a time", "week"),
  MONTH("months", 365.2425 * 86_400 / 12, Dimension.TIME, "a time", "month"),
  YEAR("years", 365.2425 * 86_400, Dimension.TIME, "a time", "year"),
  PASCAL("Pa", 1, Dimension.STRESS, "a stress"),
  KILOPASCAL("kPa", 1e3, Dimension.STRESS, "a stress"),
  PASCAL_SECOND("Pa·s", 1, Dimension.VISCOSITY, "a viscosity", "Pa.s", "Pas", "Pa*s"),
  MILLIPASCAL_SECOND("mPa·s", 1e-3, Dimension.VISCOSITY, "a viscosity", "mPa.s", "mPas", "cP"),
  PER_SECOND("/s", 1, Dimension.RATE, "a shear rate", "1/s", "s-1", "s^-1", "s⁻¹"),
  PER_MINUTE("/min", 1.0 / 60, Dimension.RATE, "a rate", "1/min"),
  PER_HOUR("/h", 1.0 / 3600, Dimension.RATE, "a rate", "1/h"),
  PER_DAY("/day", 1.0 / 86_400, Dimension.RATE, "a rate", "1/day", "/d"),
  RPM("rpm", 1.0 / 60, Dimension.STIRRING, "a stirring speed", "r/min"),
  PH("pH", 1, Dimension.PH, "a pH"),
  MOLAL("mol/kg", 1, Dimension.MOLALITY, "a molality"),
  MILLIMOLAL("mmol/kg", 1e-3, Dimension.MOLALITY, "a molality"),
  GRAM_PER_MOL("g/mol", 1e-3, Dimension.MOLAR_MASS, "a molar mass"),
  KILOGRAM_PER_MOL("kg/mol", 1, Dimension.MOLAR_MASS, "a molar mass"),
  GRAM_PER_MILLILITRE("g/mL", 1e3, Dimension.DENSITY, "a density", "g/ml", "g/cm3", "g/cm³"),
  GRAM_PER_LITRE("g/L", 1, Dimension.DENSITY, "a concentration", "g/l", "kg/m3", "kg/m³"),
  DECILITRE_PER_GRAM("dL/g", 0.1, Dimension.SPECIFIC_VOLUME, "an intrinsic viscosity", "dl/g"),
  MICROMETRE("µm", 1e-6, Dimension.LENGTH, "a length", "μm", "um", "micron", "microns"),
  MILLIMETRE("mm", 1e-3, Dimension.LENGTH, "a length"),
  CENTIMETRE("cm", 1e-2, Dimension.LENGTH, "a length"),
  METRE("m", 1, Dimension.LENGTH, "a length"),
  MILLINEWTON_PER_METRE("mN/m", 1e-3, Dimension.SURFACE_TENSION, "an interfacial tension"),
  KILOJOULE_PER_MOL("kJ/mol", 1e3, Dimension.MOLAR_ENERGY, "a molar energy");

  private static final Map<String, Unit> BY_SYMBOL = index();

  private final String symbol;
  private final double size;
  private final Dimension dimension;
  private final String inWords;
  private final List<String> otherSymbols;

  Unit(String symbol, double size, Dimension dimension, String inWords, String... otherSymbols) {
    this.symbol = symbol;
    this.size = size;
    this.dimension = dimension;
    this.inWords = inWords;
    this.otherSymbols = List.of(otherSymbols);
  }

  private static Map<String, Unit> index() {
    Map<String, Unit> map = new HashMap<>();
    for (Unit unit : values()) {
      add(map, unit.symbol, unit);
      for (String other : unit.otherSymbols) {
        add(map, other, unit);
      }
    }
    return Map.copyOf(map);
  }

  private static void add(Map<String, Unit> map, String symbol, Unit unit) {
    Unit before = map.put(symbol, unit);
    if (before != null) {
      throw new IllegalStateException(symbol + " is both " + before + " and " + unit);
    }
  }

  /**
   * The unit a formulator wrote, if it is one of these. Upper and lower case count as written (Mg
   * is not mg), but for whole words and abbreviations of three letters or more: Min, RPM, Weeks.
   */
  public static Optional<Unit> of(String symbol) {
    String text = symbol.strip();
    Unit unit = BY_SYMBOL.get(text);
    if (unit == null && isWord(text)) {
      unit = BY_SYMBOL.get(text.toLowerCase(Locale.ROOT));
    }
    return Optional.ofNullable(unit);
  }

  private static boolean isWord(String text) {
    return text.length() >= 3
        && text.chars().allMatch(c -> (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'));
  }

  /** Further ways to write it that are read but never printed. */
  List<String> otherSymbols() {
    return otherSymbols;
  }

  /** How it is printed; empty for a plain number. */
  public String symbol() {
    return symbol;
  }

  /** What kind of quantity it measures. */
  public Dimension dimension() {
    return dimension;
  }

  String dimensionInWords() {
    return inWords;
  }

  /** A number in this unit, in the coherent base unit of the dimension. */
  public double toBase(double value) {
    return value * size;
  }

  /** A number in the coherent base unit of the dimension, in this unit. */
  public double fromBase(double value) {
    return value / size;
  }
}
