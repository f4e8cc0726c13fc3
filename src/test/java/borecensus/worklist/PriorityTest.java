package borecensus.worklist;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Reason;
import borecensus.worklist.Priority.Basis;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class PriorityTest {

  private static double of(double probability, Reason reason, int suspects, double share) {
    return Priority.of(new Basis(probability, reason, 4, suspects, share));
  }

  @Test
  void aCertainDeadCylinderIsTheMost() {
    assertEquals(100, of(1, Reason.LOW_CYLINDER, 1, 0));
    assertTrue(of(1, Reason.LOW_CYLINDER, 1, 0) > of(1, Reason.LOW_ADJACENT_PAIR, 2, 0.3));
  }

  @Test
  void theDocumentedWeightsGiveTheDocumentedProduct() {
    // severity 0.3 + 0.6 x 0.22 / 0.5 = 0.564; consequence 0.5 + 0.5 x 1 / 4 = 0.625.
    assertEquals(100 * 0.8 * 0.564 * 0.625, of(0.8, Reason.LOW_CYLINDER, 1, 0.78), 1e-9);
    // An adjacent pair counts at least 0.9.
    assertEquals(100 * 0.8 * 0.564 * 0.9, of(0.8, Reason.LOW_ADJACENT_PAIR, 2, 0.78), 1e-9);
    // No suspect named: the whole engine.
    assertEquals(100 * 0.8 * 0.564, of(0.8, Reason.LOW_OVERALL, 0, 0.78), 1e-9);
  }

  @Test
  void aDoubtfulMeasurementComesLast() {
    assertTrue(of(1, Reason.DOUBTFUL_MEASUREMENT, 4, 0) < of(0.9, Reason.LOW_CYLINDER, 1, 0.8));
  }

  @Test
  void absentNumbersGiveAFinitePriority() {
    assertEquals(0, of(Double.NaN, Reason.LOW_CYLINDER, 1, 0.5));
    assertEquals(100 * 0.3 * 0.625, of(1, Reason.HIGH_CYLINDER, 1, Double.NaN), 1e-9);
  }

  @Test
  void aNearLimitRaisesThePriorityAndAFarOneHardlyDoes() {
    double none = nearing(Double.NaN, 1);
    // Severity 0.564 and half of the rest at the limit; a factor e less 20,000 km away.
    assertEquals(100 * (0.564 + 0.436 * 0.5) * 0.625, nearing(0, 1), 1e-9);
    assertEquals(100 * (0.564 + 0.436 * 0.5 / Math.E) * 0.625, nearing(0.2, 1), 1e-9);
    assertTrue(nearing(5, 1) - none < 1e-6);
  }

  @Test
  void aFamilyWhoseFailuresCostLessForAnInspectionComesLater() {
    assertEquals(nearing(0.2, 1) / 3, nearing(0.2, 1.0 / 3), 1e-9);
  }

  private static double nearing(double unitsToLimit, double costWeight) {
    return Priority.of(new Basis(1, Reason.LOW_CYLINDER, 4, 1, 0.78, unitsToLimit, costWeight));
  }

  @Test
  void moreSuspectsThanCylindersIsImpossible() {
    assertThrows(IllegalArgumentException.class, () -> of(1, Reason.LOW_BANK, 5, 0.5));
  }

  @Property(tries = 300)
  void lowerReadingsNeverLowerThePriority(
      @ForAll @DoubleRange(min = 0, max = 1) double probability,
      @ForAll @IntRange(min = 1, max = 4) int suspects,
      @ForAll @DoubleRange(min = 0, max = 1.2) double share,
      @ForAll @DoubleRange(min = 0, max = 1.2) double other) {
    double low = of(probability, Reason.LOW_CYLINDER, suspects, Math.min(share, other));
    double high = of(probability, Reason.LOW_CYLINDER, suspects, Math.max(share, other));
    assertTrue(low >= high);
    assertTrue(low >= 0 && low <= 100);
  }

  @Test
  void ranksAreTheSameWhateverTheOrderOfArrival() {
    List<WorkListEntry> entries = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      entries.add(Entries.entry("V-" + (100 + i % 20), "E-" + i, i % 3));
    }
    List<WorkListEntry> expected = Priority.ranked(entries);

    Collections.shuffle(entries, new Random(7));

    assertEquals(expected, Priority.ranked(entries));
    assertEquals(1, expected.get(0).rank());
    assertEquals(40, expected.get(39).rank());
    assertEquals(2, expected.get(0).priority());
    assertEquals("E-20", expected.get(0).engineId(), "the first vehicle among the priorities of 2");
  }

  @Test
  void equalPrioritiesAreOrderedByVehicle() {
    List<WorkListEntry> ranked =
        Priority.ranked(List.of(Entries.entry("V-2", "E-1", 5), Entries.entry("V-1", "E-2", 5)));
    assertEquals(List.of("V-1", "V-2"), ranked.stream().map(WorkListEntry::vehicleId).toList());
  }
}
