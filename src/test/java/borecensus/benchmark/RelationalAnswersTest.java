package borecensus.benchmark;

import static org.junit.jupiter.api.Assertions.assertEquals;

import borecensus.benchmark.RelationalAnswers.FamilyCentiles;
import borecensus.benchmark.RelationalAnswers.RankedEngine;
import java.util.List;
import org.junit.jupiter.api.Test;

class RelationalAnswersTest {
  private static RelationalAnswers answers(double middle, double deviation) {
    return new RelationalAnswers(
        List.of(new FamilyCentiles("F1", 3, new double[] {middle}, new double[] {2})),
        List.of(new RankedEngine("V1", 3, deviation)));
  }

  @Test
  void answersThatDifferByRoundingAgree() {
    assertEquals(List.of(), answers(7, -0.2).differences(answers(7 + 1e-12, -0.2 - 1e-13)));
  }

  @Test
  void anotherCentileOrAnotherDeviationIsTold() {
    assertEquals(List.of("family F1"), answers(7, -0.2).differences(answers(7.001, -0.2)));
    assertEquals(List.of("rank 1"), answers(7, -0.2).differences(answers(7, -0.21)));
  }
}
