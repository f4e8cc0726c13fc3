package borecensus.evaluate;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.random.RandomGenerator;

/** How the engines of a fleet are spread over families. */
enum FamilySizes {
  /** Fourteen families, a few large and many small. */
  MIXED {
    @Override
    List<Integer> draw(int engines, RandomGenerator random) {
      double[] parts = {24, 18, 14, 11, 8, 6, 5, 4, 3, 2.5, 1.6, 1.2, 0.9, 0.8};
      List<Integer> sizes = new ArrayList<>();
      for (double part : parts) {
        sizes.add(Math.max(6, (int) Math.round(engines * part / 100)));
      }
      return sizes;
    }
  },
  /** Families of 8 to 25 engines. */
  SMALL {
    @Override
    List<Integer> draw(int engines, RandomGenerator random) {
      List<Integer> sizes = new ArrayList<>();
      for (int total = 0; total < engines; total += sizes.get(sizes.size() - 1)) {
        sizes.add(8 + random.nextInt(18));
      }
      return sizes;
    }
  };

  /** How many engines each family has, about so many in all. */
  abstract List<Integer> draw(int engines, RandomGenerator random);
}
