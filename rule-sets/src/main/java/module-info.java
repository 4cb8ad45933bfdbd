import org.jspecify.annotations.NullMarked;

/** The declarative knowledge of Gelwright, and the readers and writers of its documents. */
@NullMarked
module gelwright.rulesets {
  requires transitive gelwright.core;
  requires static transitive org.jspecify;
  requires com.fasterxml.jackson.databind;
  requires jakarta.validation;
  requires org.apache.commons.csv;
  requires org.hibernate.validator;
  requires org.snakeyaml.engine;
}
