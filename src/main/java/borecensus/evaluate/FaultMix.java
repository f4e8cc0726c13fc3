package borecensus.evaluate;

import borecensus.domain.Family;
import java.util.List;
import java.util.stream.Stream;

/** Which kinds of fault a fleet has. */
enum FaultMix {
  ALL(List.of(FaultKind.values())),
  GROWING_ONLY(List.of(FaultKind.FALLING_CYLINDER, FaultKind.FALLING_LEVEL));

  private final List<FaultKind> kinds;

  FaultMix(List<FaultKind> kinds) {
    this.kinds = kinds;
  }

  /** The kinds that an engine of this family can have. */
  List<FaultKind> kinds(Family family) {
    return kinds.stream().filter(kind -> !kind.sets(family).isEmpty()).toList();
  }

  /** The weights of those kinds, which sum to one. */
  double[] weights(Family family) {
    double total = stream(family).mapToDouble(FaultKind::weight).sum();
    return stream(family).mapToDouble(kind -> kind.weight() / total).toArray();
  }

  private Stream<FaultKind> stream(Family family) {
    return kinds(family).stream();
  }
}
