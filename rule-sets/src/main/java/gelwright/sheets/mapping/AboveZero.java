package gelwright.sheets.mapping;

import gelwright.quantity.Quantity;
import jakarta.validation.Constraint;
import jakarta.validation.ConstraintValidator;
import jakarta.validation.ConstraintValidatorContext;
import jakarta.validation.Payload;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.jspecify.annotations.Nullable;

/** A quantity greater than zero. */
@Target(ElementType.FIELD)
@Retention(RetentionPolicy.RUNTIME)
@Constraint(validatedBy = AboveZero.ForQuantity.class)
public @interface AboveZero {
  String message() default "must be more than zero";

  Class<?>[] groups() default {};

  Class<? extends Payload>[] payload() default {};

  /** Checks a quantity. */
  final class ForQuantity implements ConstraintValidator<AboveZero, Quantity> {
    @Override
    public boolean isValid(@Nullable Quantity value, ConstraintValidatorContext context) {
      return value == null || value.inBase() > 0;
    }
  }
}
