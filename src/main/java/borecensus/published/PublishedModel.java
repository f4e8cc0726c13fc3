package borecensus.published;

import borecensus.registers.Registers;
import java.time.LocalDate;

/**
 * Everything of a night that one vehicle is judged by.
 *
 * @param registers families, gauges and sites as the night accepted them
 * @param asOf the date of the night
 * @param markedFrom the lowest fault probability that the night marks; infinite when it marks none
 * @param buckets among how many folders the vehicles are spread
 */
public record PublishedModel(
    LearnedModel learned, Registers registers, LocalDate asOf, double markedFrom, int buckets) {

  public PublishedModel {
    if (buckets < 1) {
      throw new IllegalArgumentException("vehicles need at least one bucket, not " + buckets);
    }
  }

  /** Whether the night marks a judged engine of this fault probability. */
  public boolean marks(double faultProbability) {
    return faultProbability >= markedFrom;
  }
}
