package gelwright.sheets.mapping;

import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import jakarta.validation.Constraint;
import jakarta.validation.ConstraintValidator;
import jakarta.validation.ConstraintValidatorContext;
import jakarta.validation.Payload;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.jspecify.annotations.Nullable;

/** A quantity, a share or a number from one value to another, both included. */
@Target(ElementType.FIELD)
@Retention(RetentionPolicy.RUNTIME)
@Constraint(
    validatedBy = {Between.ForQuantity.class, Between.ForShare.class, Between.ForNumber.class})
public @interface Between {
  /** Lower end, as on a sheet. */
  String from();

  /** Upper end, as on a sheet. */
  String to();

  String message() default "must lie between {from} and {to}";

  Class<?>[] groups() default {};

  Class<? extends Payload>[] payload() default {};

  /** Checks a quantity; the ends have its dimension. */
  final class ForQuantity implements ConstraintValidator<Between, Quantity> {
    private double from;
    private double to;

    @Override
    public void initialize(Between between) {
      from = Ends.of(between.from()).inBase();
      to = Ends.of(between.to()).inBase();
    }

    @Override
    public boolean isValid(@Nullable Quantity value, ConstraintValidatorContext context) {
      return value == null || (value.inBase() >= from && value.inBase() <= to);
    }
  }

  /** Checks a share. */
  final class ForShare implements ConstraintValidator<Between, Share> {
    private double from;
    private double to;

    @Override
    public void initialize(Between between) {
      from = Ends.of(between.from()).in(Unit.PERCENT);
      to = Ends.of(between.to()).in(Unit.PERCENT);
    }

    @Override
    public boolean isValid(@Nullable Share value, ConstraintValidatorContext context) {
      return value == null || (value.percent() >= from && value.percent() <= to);
    }
  }

  /** Checks a number, such as a pH. */
  final class ForNumber implements ConstraintValidator<Between, Double> {
    private double from;
    private double to;

    @Override
    public void initialize(Between between) {
      from = Ends.of(between.from()).value();
      to = Ends.of(between.to()).value();
    }

    @Override
    public boolean isValid(@Nullable Double value, ConstraintValidatorContext context) {
      return value == null || (value >= from && value <= to);
    }
  }
}
