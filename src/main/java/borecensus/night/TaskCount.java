package borecensus.night;

import java.util.OptionalDouble;

/**
 * How far Spark has come with the tasks that it has been given so far. A step may still ask for
 * more, so a count speaks of the part of it that is known.
 *
 * @param done tasks that have ended well
 * @param known tasks in all
 * @param seconds since the first of them was asked for
 */
public record TaskCount(int done, int known, double seconds) {
  private static final int FEWEST_TO_JUDGE_BY = 4;

  /**
   * The time that the rest takes if its tasks take as long as those done; empty as long as fewer
   * than four, or fewer than one in twenty, are done.
   */
  public OptionalDouble secondsLeft() {
    boolean tooEarly = done < FEWEST_TO_JUDGE_BY || done * 20L < known;
    return tooEarly ? OptionalDouble.empty() : OptionalDouble.of(seconds / done * (known - done));
  }
}
