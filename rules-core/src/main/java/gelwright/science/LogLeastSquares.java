package gelwright.science;

import java.util.function.UnaryOperator;
import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.QRDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.MultivariateJacobianFunction;
import org.hipparchus.util.Pair;

/** Least squares of logarithms by Levenberg-Marquardt, and the errors of what it finds. */
final class LogLeastSquares {
  private static final double STEP = 1e-6;
  private static final int ITERATIONS = 400;

  /** Pivot below which two parameters count as indistinguishable. */
  static final double SINGULAR = 1e-12;

  private LogLeastSquares() {}

  /**
   * The end of the descent from a start.
   *
   * @param model logarithms from variables, smooth for all of them
   * @param target logarithms that were measured
   */
  static double[] descend(UnaryOperator<double[]> model, double[] target, double[] start) {
    MultivariateJacobianFunction both =
        variables -> {
          double[] at = variables.toArray();
          return new Pair<RealVector, RealMatrix>(
              new ArrayRealVector(model.apply(at), false),
              new Array2DRowRealMatrix(jacobian(model, at), false));
        };
    try {
      return new LevenbergMarquardtOptimizer()
          .optimize(
              new LeastSquaresBuilder()
                  .start(start)
                  .model(both)
                  .target(target)
                  .maxEvaluations(ITERATIONS)
                  .maxIterations(ITERATIONS)
                  .build())
          .getPoint()
          .toArray();
    } catch (MathRuntimeException stopped) {
      // Out of iterations, or no progress left at the limit of precision: the start stands in, and
      // another start decides.
      return start;
    }
  }

  /** Central differences; a row a logarithm, a column a variable. */
  static double[][] jacobian(UnaryOperator<double[]> model, double[] variables) {
    double[][] result = new double[0][];
    for (int j = 0; j < variables.length; j++) {
      double[] up = variables.clone();
      double[] down = variables.clone();
      up[j] += STEP;
      down[j] -= STEP;
      double[] above = model.apply(up);
      double[] below = model.apply(down);
      if (j == 0) {
        result = new double[above.length][variables.length];
      }
      for (int i = 0; i < result.length; i++) {
        result[i][j] = (above[i] - below[i]) / (2 * STEP);
      }
    }
    return result;
  }

  static double sumOfSquares(double[] values, double[] target) {
    double sum = 0;
    for (int i = 0; i < values.length; i++) {
      double residual = values[i] - target[i];
      sum += residual * residual;
    }
    return sum;
  }

  /**
   * Square roots of the diagonal of variance (JᵀJ)⁻¹; infinite where the columns cannot be told
   * apart. Columns are brought to unit length first, so that the inverse is well conditioned.
   */
  static double[] standardErrors(double[][] slopes, double variance) {
    int count = slopes[0].length;
    RealMatrix jacobian = new Array2DRowRealMatrix(slopes);
    double[] lengths = new double[count];
    for (int j = 0; j < count; j++) {
      lengths[j] = jacobian.getColumnVector(j).getNorm();
      if (lengths[j] > 0) {
        jacobian.setColumnVector(j, jacobian.getColumnVector(j).mapDivide(lengths[j]));
      }
    }
    double[] errors = new double[count];
    java.util.Arrays.fill(errors, Double.POSITIVE_INFINITY);
    try {
      RealMatrix inverse =
          new QRDecomposition(jacobian.transposeMultiply(jacobian), SINGULAR)
              .getSolver()
              .getInverse();
      for (int i = 0; i < count; i++) {
        double error = Math.sqrt(Math.max(0, variance * inverse.getEntry(i, i))) / lengths[i];
        errors[i] = Double.isFinite(error) ? error : Double.POSITIVE_INFINITY;
      }
      return errors;
    } catch (MathRuntimeException singular) {
      // The readings do not tell the parameters apart: the errors stay infinite.
      return errors;
    }
  }

  /**
   * Lower triangle L with L Lᵀ = variance (JᵀJ)⁻¹: column j is how far one standard deviation of
   * the j-th independent doubt moves each parameter. Empty where the columns cannot be told apart.
   */
  static double[][] directions(double[][] slopes, double variance) {
    RealMatrix jacobian = new Array2DRowRealMatrix(slopes);
    try {
      RealMatrix inverse =
          new QRDecomposition(jacobian.transposeMultiply(jacobian), SINGULAR)
              .getSolver()
              .getInverse();
      int count = inverse.getRowDimension();
      double[][] lower = new double[count][count];
      for (int i = 0; i < count; i++) {
        for (int j = 0; j <= i; j++) {
          double left = variance * inverse.getEntry(i, j);
          for (int k = 0; k < j; k++) {
            left -= lower[i][k] * lower[j][k];
          }
          lower[i][j] =
              i == j ? Math.sqrt(Math.max(0, left)) : lower[j][j] > 0 ? left / lower[j][j] : 0;
          if (!Double.isFinite(lower[i][j])) {
            return new double[0][];
          }
        }
      }
      return lower;
    } catch (MathRuntimeException singular) {
      return new double[0][];
    }
  }

  /**
   * Corrected Akaike information criterion for so many points, parameters (the scatter not counted)
   * and sum of squares; a fit better than a scatter of {@code exact} counts as that good.
   */
  static double criterion(int size, int parameters, double sum, double exact) {
    int counted = parameters + 1;
    double penalty =
        size > counted + 1
            ? 2.0 * counted + 2.0 * counted * (counted + 1) / (size - counted - 1)
            : Double.MAX_VALUE;
    return 2 * size * Math.log(Math.max(exact, Math.sqrt(sum / size))) + penalty;
  }
}
