package borecensus.printing;

import java.util.List;
import java.util.Set;

/**
 * Which vehicles get a page.
 *
 * @param named vehicles by id, in the order wanted
 * @param groups whole groups besides
 * @param due when an engine counts as due
 * @param mostPages at most so many pages: named ones first, then marked, then due ones, longest
 *     untested first
 */
public record Selection(List<String> named, Set<Group> groups, DueRule due, int mostPages) {

  /** Groups of vehicles. */
  public enum Group {
    MARKED,
    DUE
  }

  /**
   * @throws IllegalArgumentException when it selects nothing at all, or no page is allowed
   */
  public Selection {
    named = List.copyOf(named);
    groups = Set.copyOf(groups);
    if (named.isEmpty() && groups.isEmpty()) {
      throw new IllegalArgumentException(
          "say which vehicles: --vehicle ID, --list FILE, --marked or --due");
    }
    if (mostPages < 1) {
      throw new IllegalArgumentException("at least one page must be allowed");
    }
  }
}
