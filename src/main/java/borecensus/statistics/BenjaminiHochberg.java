package borecensus.statistics;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;

/**
 * Step-up adjustment of p-values that controls the false discovery rate.
 *
 * <p>Source: Benjamini and Hochberg (1995), JRSS-B 57, 289-300, in its adjusted form: with p_(1)
 * &lt;= .. &lt;= p_(m),
 *
 * <pre>
 *   adjusted_(i) = min over j &gt;= i of min(1, p_(j) m / j)
 * </pre>
 *
 * <p>NaN stands for a test that was not made: it stays NaN and does not count in m. Ties receive
 * the same adjusted value. Empty input gives empty output.
 */
public final class BenjaminiHochberg {
  private BenjaminiHochberg() {}

  /**
   * Adjusted p-values.
   *
   * @param p p-values from 0 to 1, or NaN
   * @return one adjusted value per p-value, in the same order
   * @throws IllegalArgumentException if a value is below 0 or above 1
   */
  public static double[] adjust(double[] p) {
    for (double value : p) {
      if (value < 0.0 || value > 1.0) {
        throw new IllegalArgumentException("a p-value must be from 0 to 1, but one is " + value);
      }
    }
    int[] ascending = indicesByValue(p);
    double[] adjusted = new double[p.length];
    Arrays.fill(adjusted, Double.NaN);
    double smallest = 1.0;
    int m = ascending.length;
    for (int rank = m; rank >= 1; rank--) {
      int index = ascending[rank - 1];
      // m / rank first: it is exactly 1 for the largest p, which must not be rounded below itself.
      smallest = Math.min(smallest, p[index] * ((double) m / rank));
      adjusted[index] = smallest;
    }
    return adjusted;
  }

  private static int[] indicesByValue(double[] p) {
    return IntStream.range(0, p.length)
        .filter(i -> !Double.isNaN(p[i]))
        .boxed()
        .sorted(Comparator.comparingDouble(i -> p[i]))
        .mapToInt(Integer::intValue)
        .toArray();
  }
}
