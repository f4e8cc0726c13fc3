package borecensus.simulate;

import java.util.List;

/** A scenario that cannot be simulated, with everything that is wrong with it. */
public final class InvalidScenarioException extends Exception {
  private static final long serialVersionUID = 1L;

  private final transient List<String> problems;

  public InvalidScenarioException(List<String> problems) {
    super(String.join("; ", problems));
    this.problems = List.copyOf(problems);
  }

  /** One plain sentence per problem. */
  public List<String> problems() {
    return problems;
  }
}
