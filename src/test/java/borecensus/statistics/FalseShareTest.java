package borecensus.statistics;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FalseShareTest {
  /** Each engine's 1 - p is rounded to a unit of 2^-36: 0.73e-11 at most. */
  private static final double UNIT_ROUNDING = 1e-11;

  /** Odds within one bin differ by at most exp(1/512). */
  private static final double BIN_RESOLUTION = Math.expm1(1.0 / 512.0);

  @Provide
  Arbitrary<List<Double>> fleets() {
    return probabilities().list().ofMinSize(1).ofMaxSize(60);
  }

  /** Everywhere from 0 to 1, often at the ends, and often tied. */
  @Provide
  Arbitrary<Double> probabilities() {
    return Arbitraries.oneOf(
        Arbitraries.doubles().between(0, 1).ofScale(9),
        Arbitraries.doubles().between(-18, 18).ofScale(4).map(logit -> 1 / (1 + Math.exp(-logit))),
        Arbitraries.of(0.0, 0.25, 0.5, 0.9, 0.99, 1.0));
  }

  @Property(seed = "1", tries = 300)
  void mergingDoesNotDependOnOrderOrGrouping(
      @ForAll("fleets") List<Double> a,
      @ForAll("fleets") List<Double> b,
      @ForAll("fleets") List<Double> c) {
    byte[] leftFirst = merged(merged(counted(a), counted(b)), counted(c)).toBytes();

    assertArrayEquals(leftFirst, merged(counted(a), merged(counted(b), counted(c))).toBytes());
    assertArrayEquals(leftFirst, merged(counted(c), merged(counted(b), counted(a))).toBytes());
  }

  @Property(seed = "1", tries = 300)
  void theResultDoesNotDependOnHowTheFleetIsPartitioned(
      @ForAll("fleets") List<Double> fleet,
      @ForAll @IntRange(min = 1, max = 7) int partitions,
      @ForAll("probabilities") double p) {
    FalseShareCounts inParts = new FalseShareCounts();
    for (int part = partitions - 1; part >= 0; part--) {
      FalseShareCounts counts = new FalseShareCounts();
      for (int i = part; i < fleet.size(); i += partitions) {
        counts.add(fleet.get(i));
      }
      inParts.merge(counts);
    }

    assertArrayEquals(counted(fleet).toBytes(), inParts.toBytes());
    assertEquals(table(fleet).qValue(p), FalseShareTable.of(inParts).qValue(p));
  }

  @Property(seed = "1", tries = 300)
  void fromTheLowestMarkedProbabilityUpEverythingIsMarkedAndBelowItNothing(
      @ForAll("fleets") List<Double> fleet,
      @ForAll("probabilities") double p,
      @ForAll("probabilities") double maxFalseShare) {
    FalseShareTable table = table(fleet);
    double lowest = table.lowestMarked(maxFalseShare);

    assertEquals(table.qValue(p) <= maxFalseShare, p >= lowest);
    assertTrue(lowest == Double.POSITIVE_INFINITY || table.qValue(lowest) <= maxFalseShare);
    assertTrue(lowest == 0 || table.qValue(Math.min(1, Math.nextDown(lowest))) > maxFalseShare);
  }

  @Property(seed = "1", tries = 300)
  void aMoreProbableFaultNeverHasALargerFalseShare(
      @ForAll("fleets") List<Double> fleet,
      @ForAll("probabilities") double p,
      @ForAll("probabilities") double q) {
    FalseShareTable table = table(fleet);

    assertTrue(table.qValue(Math.max(p, q)) <= table.qValue(Math.min(p, q)));
  }

  @Property(seed = "1", tries = 300)
  void qIsTheExactMeanOverAllThatAreAtLeastAsProbableToTheBin(
      @ForAll("fleets") List<Double> fleet) {
    FalseShareTable table = table(fleet);
    for (double p : fleet) {
      int bin = FalseShareCounts.bin(p);
      double exactWithBinTied =
          fleet.stream()
              .filter(other -> FalseShareCounts.bin(other) >= bin)
              .mapToDouble(other -> 1 - other)
              .average()
              .orElseThrow();

      assertEquals(exactWithBinTied, table.qValue(p), UNIT_ROUNDING);
    }
  }

  @Property(seed = "1", tries = 300)
  void qLiesBetweenTheExactMeanAndTheBinsOwnFalseShare(@ForAll("fleets") List<Double> fleet) {
    FalseShareTable table = table(fleet);
    for (double p : fleet) {
      double exact =
          fleet.stream()
              .filter(other -> other >= p)
              .mapToDouble(other -> 1 - other)
              .average()
              .orElseThrow();
      // The clamped end bins reach as far as 1 - p = 1.1e-7 at the top, p = 1.1e-7 at the bottom.
      double upper = Math.max(exact, (1 - p) * (1 + BIN_RESOLUTION)) + 1.2e-7;

      assertTrue(table.qValue(p) >= exact - UNIT_ROUNDING);
      assertTrue(table.qValue(p) <= upper);
    }
  }

  @Property(seed = "1", tries = 300)
  void theBytesBringEverythingBack(@ForAll("fleets") List<Double> fleet) {
    FalseShareCounts counts = counted(fleet);
    FalseShareCounts back = FalseShareCounts.fromBytes(counts.toBytes());

    assertArrayEquals(counts.toBytes(), back.toBytes());
    assertEquals(fleet.size(), back.engines());
  }

  @Property(seed = "1", tries = 300)
  void binsFollowTheOrderOfProbabilities(
      @ForAll("probabilities") double p, @ForAll("probabilities") double q) {
    assertTrue(FalseShareCounts.bin(Math.min(p, q)) <= FalseShareCounts.bin(Math.max(p, q)));
  }

  @Test
  void aWorkedExampleGivesTheRunningMean() {
    // Means of 1 - p from the top: 0.01, (0.01 + 0.10) / 2, (0.01 + 0.10 + 0.40) / 3, ... + 0.95.
    FalseShareTable table = table(List.of(0.05, 0.99, 0.60, 0.90));

    assertEquals(0.01, table.qValue(0.99), UNIT_ROUNDING);
    assertEquals(0.055, table.qValue(0.90), UNIT_ROUNDING);
    assertEquals(0.17, table.qValue(0.60), UNIT_ROUNDING);
    assertEquals(0.365, table.qValue(0.05), UNIT_ROUNDING);
    assertEquals(0.365, table.qValue(0.0), UNIT_ROUNDING);
  }

  @Test
  void betweenTwoEnginesTheMoreProbableOneCounts() {
    FalseShareTable table = table(List.of(0.99, 0.60));

    assertEquals(table.qValue(0.99), table.qValue(0.75));
  }

  @Test
  void aboveAllEnginesAnEngineStandsAlone() {
    FalseShareTable table = table(List.of(0.90, 0.60));

    assertEquals(0.05, table.qValue(0.95), UNIT_ROUNDING);
    assertEquals(0.3, FalseShareTable.of(new FalseShareCounts()).qValue(0.7), UNIT_ROUNDING);
  }

  @Test
  void mergingLeavesTheOtherPartAsItWas() {
    FalseShareCounts other = counted(List.of(0.2, 0.9));
    byte[] before = other.toBytes();

    counted(List.of(0.5)).merge(other);

    assertArrayEquals(before, other.toBytes());
  }

  @Test
  void countsAndTableSurviveJavaSerialisation() throws IOException, ClassNotFoundException {
    FalseShareCounts counts = counted(List.of(0.2, 0.9, 0.999));
    FalseShareTable table = FalseShareTable.of(counts);

    assertArrayEquals(counts.toBytes(), ((FalseShareCounts) throughBytes(counts)).toBytes());
    assertEquals(table.qValue(0.9), ((FalseShareTable) throughBytes(table)).qValue(0.9));
  }

  @Test
  void sixtySevenMillionHealthyEnginesHaveRoomAndTwiceAsManyAreRefused() {
    FalseShareCounts counts = counted(List.of(0.0));
    for (int doubling = 0; doubling < 26; doubling++) {
      counts.merge(FalseShareCounts.fromBytes(counts.toBytes()));
    }

    assertEquals(1L << 26, counts.engines());
    assertEquals(1.0, FalseShareTable.of(counts).qValue(0.0));

    FalseShareCounts asMany = FalseShareCounts.fromBytes(counts.toBytes());
    assertThrows(ArithmeticException.class, () -> counts.merge(asMany));
  }

  @ParameterizedTest
  @ValueSource(doubles = {-0.001, 1.001, Double.NaN})
  void aNumberThatIsNoProbabilityIsRefused(double p) {
    var refusal = assertThrows(IllegalArgumentException.class, () -> new FalseShareCounts().add(p));

    assertEquals("a fault probability must be from 0 to 1, but is " + p, refusal.getMessage());
  }

  @Test
  void anUnknownProbabilityHasAnUnknownFalseShareAndAnImpossibleOneIsRefused() {
    FalseShareTable table = table(List.of(0.5));

    assertTrue(Double.isNaN(table.qValue(Double.NaN)));
    assertThrows(IllegalArgumentException.class, () -> table.qValue(1.5));
  }

  @Test
  void foreignBytesAreRefused() {
    assertEquals(
        "false-share counts come in records of 20 bytes, but there are 7 bytes",
        assertThrows(IllegalArgumentException.class, () -> FalseShareCounts.fromBytes(new byte[7]))
            .getMessage());
    byte[] noSuchBin = new byte[20];
    noSuchBin[0] = 1;
    assertEquals(
        "false-share counts have no bin 16777216",
        assertThrows(IllegalArgumentException.class, () -> FalseShareCounts.fromBytes(noSuchBin))
            .getMessage());
  }

  private static FalseShareCounts counted(List<Double> fleet) {
    FalseShareCounts counts = new FalseShareCounts();
    fleet.forEach(counts::add);
    return counts;
  }

  private static FalseShareTable table(List<Double> fleet) {
    return FalseShareTable.of(counted(fleet));
  }

  private static FalseShareCounts merged(FalseShareCounts into, FalseShareCounts other) {
    into.merge(other);
    return into;
  }

  private static Object throughBytes(Object value) throws IOException, ClassNotFoundException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ObjectOutputStream out = new ObjectOutputStream(bytes)) {
      out.writeObject(value);
    }
    try (ObjectInputStream in =
        new ObjectInputStream(new ByteArrayInputStream(bytes.toByteArray()))) {
      return in.readObject();
    }
  }
}
