package borecensus.night;

import java.util.ArrayList;
import java.util.List;

/** Keeps what the steps of nights come to. */
final class ToldOutcomes implements NightProgress {
  private final List<String> outcomes = new ArrayList<>();

  @Override
  public void begins(String step) {}

  @Override
  public void ends(String outcome) {
    outcomes.add(outcome);
  }

  /** How many nights took over norms that teach by tests before a day. */
  long withStandingNorms(String before) {
    String standing = "those that were learned from tests before " + before;
    return outcomes.stream().filter(standing::equals).count();
  }
}
