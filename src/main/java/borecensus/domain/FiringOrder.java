package borecensus.domain;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;

/**
 * The order in which an engine's cylinders fire.
 *
 * @param cylinders cylinder numbers from 1, every cylinder exactly once
 */
public record FiringOrder(List<Integer> cylinders) {

  public FiringOrder {
    cylinders = List.copyOf(cylinders);
  }

  /**
   * Reads {@code 1-3-4-2}, its numbers parted by hyphens, commas, semicolons or spaces.
   *
   * @return empty when the text does not name cylinders 1 to {@code cylinders} once each
   */
  public static Optional<FiringOrder> parse(String text, int cylinders) {
    List<Integer> order = new ArrayList<>();
    for (String part : text.strip().split("[-,; ]+", Limits.MAX_CYLINDERS + 1)) {
      if (!part.matches("[1-9][0-9]?") || Integer.parseInt(part) > cylinders) {
        return Optional.empty();
      }
      order.add(Integer.valueOf(part));
    }
    boolean eachOnce = order.size() == cylinders && new HashSet<>(order).size() == cylinders;
    return eachOnce ? Optional.of(new FiringOrder(order)) : Optional.empty();
  }

  /** The order as workshops write it, such as 1-3-4-2. */
  public String text() {
    return String.join("-", cylinders.stream().map(String::valueOf).toList());
  }
}
