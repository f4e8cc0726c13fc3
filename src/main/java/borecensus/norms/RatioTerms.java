package borecensus.norms;

import borecensus.statistics.QuickExp;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The likelihood ratios of one fault for every set of cylinders, course and size, gathered until
 * all are known and can be summed. They stand in one list, over which the loops run without a
 * branch.
 */
final class RatioTerms {
  /** A size this far below the pattern's own largest on the log scale adds nothing, at any law. */
  private static final double NEGLIGIBLE = -80;

  private static final ThreadLocal<RatioTerms> OF_THREAD = ThreadLocal.withInitial(RatioTerms::new);

  /** Signed and ever larger; none where the sizes are averaged over already. */
  private double[] shifts = {};

  /** Logs of likelihood ratio times weight, without the weight of the size, by pattern. */
  private double[] terms = new double[1_024];

  private int count;

  /** How many sizes of each pattern are told: the first ones. */
  private int[] sizes = new int[64];

  private int patterns;
  private final List<int[]> sets = new ArrayList<>();

  /** By set, how many patterns end with it. */
  private int[] ends = new int[16];

  private RatioTerms() {}

  /** The list of this thread, to begin anew: every engine would need its own for a moment. */
  static RatioTerms ofThread() {
    return OF_THREAD.get();
  }

  /**
   * Begins with a fault.
   *
   * @param faultShifts its sizes, all of one sign and ever larger
   */
  void begin(double[] faultShifts) {
    shifts = faultShifts;
    count = 0;
    patterns = 0;
    sets.clear();
  }

  /**
   * Adds one pattern in every size.
   *
   * @param logWeight of the pattern
   * @param score u'Wz
   * @param information u'Wu
   */
  void add(double logWeight, double score, double information) {
    double half = information / 2;
    int told = told(score, half);
    double[] to = reserved(told);
    int at = count - told;
    for (int i = 0; i < told; i++) {
      double shift = shifts[i];
      to[at + i] = logWeight + shift * (score - shift * half);
    }
  }

  /** Adds one pattern of which all sizes are averaged over: log of ratio times weight. */
  void addAveraged(double logTerm) {
    reserved(1)[count - 1] = logTerm;
  }

  /** How many sizes add something: a parabola that falls goes on falling. */
  private int told(double score, double half) {
    double lowest = Math.min(0, shifts[0] * (score - shifts[0] * half)) + NEGLIGIBLE;
    // Neighbours hardly differ: from where the last pattern ended.
    int told = patterns == 0 ? shifts.length : sizes[patterns - 1];
    while (told < shifts.length && shifts[told] * (score - shifts[told] * half) >= lowest) {
      told++;
    }
    while (told > 1 && shifts[told - 1] * (score - shifts[told - 1] * half) < lowest) {
      told--;
    }
    return told;
  }

  /** Makes room for a pattern of so many sizes, which end the list then. */
  private double[] reserved(int told) {
    if (count + told > terms.length) {
      terms = Arrays.copyOf(terms, 2 * terms.length + told);
    }
    if (patterns == sizes.length) {
      sizes = Arrays.copyOf(sizes, 2 * patterns);
    }
    sizes[patterns++] = told;
    count += told;
    return terms;
  }

  /**
   * Ends a set of patterns.
   *
   * @param cylinders that they shift, from 0; or the test, of a fault of a test
   */
  void endSet(int[] cylinders) {
    if (sets.size() == ends.length) {
      ends = Arrays.copyOf(ends, 2 * ends.length);
    }
    ends[sets.size()] = patterns;
    sets.add(cylinders);
  }

  /**
   * Sums the terms, which are lost by it.
   *
   * @param weights probabilities of the sizes; shared, not copied
   * @param parts cylinders of the engine, or tests
   */
  RatioSum sum(double[] weights, int parts) {
    double largest = largest();
    QuickExp.ofEach(terms, count, largest);
    double[] bySize = new double[weights.length];
    double[] byPart = new double[parts];
    double[] ofSet = new double[weights.length];
    int from = 0;
    int pattern = 0;
    for (int s = 0; s < sets.size(); s++) {
      Arrays.fill(ofSet, 0);
      for (; pattern < ends[s]; pattern++) {
        addTo(ofSet, from, sizes[pattern]);
        from += sizes[pattern];
      }
      double weighted = 0;
      for (int i = 0; i < ofSet.length; i++) {
        bySize[i] += ofSet[i];
        weighted += weights[i] * ofSet[i];
      }
      for (int part : sets.get(s)) {
        byPart[part] += weighted;
      }
    }
    return new RatioSum(weights, bySize, byPart, largest);
  }

  private void addTo(double[] sums, int from, int told) {
    double[] values = terms;
    for (int i = 0; i < told; i++) {
      sums[i] += values[from + i];
    }
  }

  private double largest() {
    double largest = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < count; i++) {
      if (terms[i] > largest) {
        largest = terms[i];
      }
    }
    return largest;
  }
}
