package borecensus.ledger;

import borecensus.domain.Finding;
import borecensus.domain.Vehicle;
import java.util.List;

/**
 * What all sheets of one vehicle come to.
 *
 * @param vehicle null when the vehicle is not registered; then there are refusals only
 * @param segments stretches of one engine between works that restart its history, oldest first; the
 *     last one is the engine in service now and may be without tests
 * @param outcome the records that do not stand
 */
public record SettledVehicle(Vehicle vehicle, List<Segment> segments, Outcome outcome) {

  /**
   * Tests of one engine between two works that restart its history.
   *
   * @param originalEngine whether the engine came with the vehicle
   * @param tests oldest first
   * @param findings of inspections of this engine in that time, oldest first
   */
  public record Segment(
      String engineId, boolean originalEngine, List<SettledTest> tests, List<Finding> findings) {
    public Segment {
      tests = List.copyOf(tests);
      findings = List.copyOf(findings);
    }
  }

  public SettledVehicle {
    segments = List.copyOf(segments);
  }
}
