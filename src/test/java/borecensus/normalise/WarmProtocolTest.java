package borecensus.normalise;

import static borecensus.ledger.SheetBuilder.sheet;
import static borecensus.ledger.SmallFleet.REGISTERS;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.ledger.SettledTest;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

class WarmProtocolTest {
  private static final double NONE = Double.NaN;

  @Test
  void aFamilyWhoseMiddleTestIsWarmIsTestedWarm() {
    assertEquals(
        Set.of("WARM"),
        WarmProtocol.learn(
                List.of(
                    history("WARM", 85, 80, 20, 90, 85),
                    history("COLD", 20, 15, 85, 25, 10),
                    history("EDGE", 59, 59, 59, 90, 90)))
            .warmFamilies());
  }

  @Test
  void theBoundItselfIsWarm() {
    assertEquals(
        Set.of("F"), WarmProtocol.learn(List.of(history("F", 60, 60, 60, 60, 60))).warmFamilies());
  }

  @Test
  void temperaturesAreGatheredOverTheEnginesOfAFamily() {
    assertEquals(
        Set.of("F"),
        WarmProtocol.learn(List.of(history("F", 80, 80), history("F", 80, 80, 80))).warmFamilies());
  }

  @Test
  void aFamilyWithFewerThanFiveTemperaturesIsNotJudged() {
    assertEquals(
        Set.of(),
        WarmProtocol.learn(List.of(history("F", 85, 85, 85, 85, NONE, NONE))).warmFamilies());
    assertEquals(Set.of(), WarmProtocol.learn(List.of()).warmFamilies());
  }

  @Test
  void aColdTestInAWarmFamilyIsDoubtedAndKept() {
    EngineHistory applied = new WarmProtocol(Set.of("F")).apply(history("F", 85, 49.9, 50, NONE));
    assertEquals(
        List.of(List.of(), List.of(Doubt.COLD_ENGINE), List.of(), List.of()),
        applied.tests().stream().map(CompressionTest::doubts).toList());
    assertEquals(3, applied.trustedTests().size());
  }

  @Test
  void aColdTestInAFamilyTestedColdIsBelieved() {
    EngineHistory history = history("F", 20, 15);
    assertSame(history, new WarmProtocol(Set.of("OTHER")).apply(history));
  }

  private static EngineHistory history(String family, double... temperaturesC) {
    return new EngineHistory(
        "V1",
        "V1/engine-1",
        family,
        "D1",
        true,
        Arrays.stream(temperaturesC).mapToObj(WarmProtocolTest::test).toList());
  }

  private static CompressionTest test(double temperatureC) {
    return new Normaliser(REGISTERS)
        .normalise(
            new SettledTest(sheet().engineTempC(temperatureC).inFile(1), "V1/engine-1", List.of()),
            "D1",
            4);
  }
}
