package borecensus.evaluate;

import java.util.stream.IntStream;

/**
 * Faulty engines by kind of fault, by {@link FaultKind#ordinal}.
 *
 * @param engines how many have it
 * @param found how many of those the model marks
 * @param foundBest how many the best ranking marks by the same rule
 */
record KindCounts(long[] engines, long[] found, long[] foundBest) {

  static KindCounts of(TrueFleet fleet, Marks model, Marks best) {
    KindCounts counts = none();
    for (int i = 0; i < fleet.engines().size(); i++) {
      if (fleet.engines().get(i).fault().isPresent()) {
        int kind = fleet.engines().get(i).fault().get().kind().ordinal();
        counts.engines[kind]++;
        counts.found[kind] += model.marked()[i] ? 1 : 0;
        counts.foundBest[kind] += best.marked()[i] ? 1 : 0;
      }
    }
    return counts;
  }

  static KindCounts none() {
    int n = FaultKind.values().length;
    return new KindCounts(new long[n], new long[n], new long[n]);
  }

  KindCounts plus(KindCounts other) {
    return new KindCounts(
        sum(engines, other.engines), sum(found, other.found), sum(foundBest, other.foundBest));
  }

  private static long[] sum(long[] a, long[] b) {
    return IntStream.range(0, a.length).mapToLong(i -> a[i] + b[i]).toArray();
  }
}
