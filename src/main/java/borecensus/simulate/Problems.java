package borecensus.simulate;

import java.util.ArrayList;
import java.util.List;

/** Collects what is wrong, each problem with the place where it stands. */
final class Problems {
  private final List<String> found = new ArrayList<>();

  void require(boolean holds, String place, String what) {
    if (!holds) {
      found.add(place + ": " + what);
    }
  }

  void share(double value, String place) {
    require(value >= 0 && value <= 1, place, "must be a share from 0 to 1, not " + value);
  }

  void positive(double value, String place) {
    require(value > 0, place, "must be above 0, not " + value);
  }

  void notNegative(double value, String place) {
    require(value >= 0, place, "must not be negative, but is " + value);
  }

  void unique(List<String> names, String place) {
    List<String> seen = new ArrayList<>();
    for (String name : names) {
      require(!seen.contains(name), place, "'" + name + "' stands twice");
      seen.add(name);
    }
  }

  List<String> list() {
    return List.copyOf(found);
  }
}
