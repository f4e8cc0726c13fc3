package borecensus.norms;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * The likelihood ratios of many columns (see {@link TailOdds}), summed up as far as the shares
 * leave them alone, so that counting what is wide takes a few products a column.
 *
 * <p>With L the share of wide offsets and N that of wide noise, the odds of all ways in which a
 * column of T values may be wide are usual + L lasting + N sum(single) + sum over t of N^(T - t)
 * since_t: a polynomial in N. So are the odds of the ways in which noise is wide, each counted as
 * often as it says so of a test that deviates upwards.
 */
final class TailTable {
  /** Where the numbers of the powers of N begin: before them usual, lasting and lasting counted. */
  static final int HEAD = 3;

  private final SortedMap<Integer, List<double[]>> rows = new TreeMap<>();
  private double offsets;
  private double noises;

  /** Sums of weights of wide values, or of all. */
  record Count(double offsets, double noises) {}

  /** Adds a column that counts by this weight. */
  void add(TailColumn column, double weight) {
    TailOdds odds = TailOdds.of(column);
    int tests = odds.single().length;
    double offsetWeight = column.lasting().score() > 0 ? weight : 0;
    double[] row = new double[HEAD + 2 * tests];
    row[0] = odds.usual();
    row[1] = odds.lasting();
    row[2] = offsetWeight * odds.lasting();
    int used = HEAD + 2;
    double newer = 0;
    for (int t = tests - 1; t >= 0; t--) {
      double noiseWeight = column.scores()[t] > 0 ? weight : 0;
      newer += noiseWeight;
      int power = HEAD + 2 * (tests - 1 - t);
      row[power] += odds.since()[t];
      row[power + 1] += newer * odds.since()[t];
      row[HEAD] += odds.single()[t];
      row[HEAD + 1] += noiseWeight * odds.single()[t];
      used = row[power] > 0 ? power + 2 : used;
    }
    rows.computeIfAbsent(used, n -> new ArrayList<>())
        .add(used == row.length ? row : Arrays.copyOf(row, used));
    offsets += offsetWeight;
    noises += newer;
  }

  /** The columns added so far, to be counted. */
  Packed packed() {
    return new Packed(
        rows.values().stream().map(TailRows::new).toList(), new Count(offsets, noises));
  }

  /**
   * Columns as they are counted over and over.
   *
   * @param rows their numbers, rows of one length together
   * @param all offsets and values of tests that deviate upwards
   */
  record Packed(List<TailRows> rows, Count all) {

    /** Those that are wide, if such shares of all are. */
    Count wide(double offsetShare, double noiseShare) {
      double wideOffsets = 0;
      double wideNoises = 0;
      for (TailRows equal : rows) {
        Count wide = equal.wide(offsetShare, noiseShare);
        wideOffsets += wide.offsets();
        wideNoises += wide.noises();
      }
      return new Count(wideOffsets, wideNoises);
    }
  }
}
