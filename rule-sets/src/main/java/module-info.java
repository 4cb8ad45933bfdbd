import org.jspecify.annotations.NullMarked;

/** The declarative knowledge of Gelwright, and the readers and writers of its documents. */
@NullMarked
module gelwright.rulesets {
  exports gelwright.reports;

  requires transitive gelwright.core;
  requires static transitive org.jspecify;
  requires com.fasterxml.jackson.databind;
  requires jakarta.validation;
  requires org.apache.commons.csv;
  requires org.hibernate.validator;
  requires org.snakeyaml.engine;
  requires java.xml;
  // Named after their jars: they declare no module names of their own.
  requires commons.jvm;
  requires plot.stem.jvm;
  requires kotlin.stdlib;

  exports gelwright.sheets;
  exports gelwright.charts;
  exports gelwright.sheets.tree;

  // The validator reads the document records and makes the constraints' checkers.
  opens gelwright.sheets.document to
      org.hibernate.validator;
  opens gelwright.sheets.mapping to
      org.hibernate.validator;
}
