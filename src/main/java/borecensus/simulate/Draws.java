package borecensus.simulate;

import java.util.List;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.random.RandomGenerator;

/** Draws from one random stream; every call moves the stream on. */
final class Draws {
  private final RandomGenerator generator;

  Draws(RandomGenerator generator) {
    this.generator = generator;
  }

  double uniform(double from, double to) {
    return from + (to - from) * generator.nextDouble();
  }

  double gaussian(double sd) {
    return sd * generator.nextGaussian();
  }

  boolean chance(double probability) {
    return generator.nextDouble() < probability;
  }

  /** A whole number from {@code from} up to and including {@code to}. */
  int whole(int from, int to) {
    return from + generator.nextInt(to - from + 1);
  }

  <T> T pick(List<T> choices) {
    return choices.get(generator.nextInt(choices.size()));
  }

  /** Picks with the given relative weights, at least one of which is above 0. */
  <T> T pick(List<T> choices, ToDoubleFunction<T> weight) {
    double left = generator.nextDouble() * choices.stream().mapToDouble(weight).sum();
    for (T choice : choices) {
      left -= weight.applyAsDouble(choice);
      if (left < 0) {
        return choice;
      }
    }
    return choices.get(choices.size() - 1);
  }

  /** Counts by Knuth's product of uniforms (1969, section 3.4.1); for small means. */
  int poisson(double mean) {
    double limit = Math.exp(-mean);
    double product = generator.nextDouble();
    int count = 0;
    while (product > limit) {
      product *= generator.nextDouble();
      count++;
    }
    return count;
  }
}
