package borecensus.printing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Banks;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BandsTest {
  private static List<List<List<Integer>>> cylinders(String banks, int count) {
    return Bands.of(Banks.parse(banks, count)).stream()
        .map(band -> band.stream().map(Bands.Run::cylinders).toList())
        .toList();
  }

  @Test
  void aShortEngineTakesOneBandBankByBank() {
    assertEquals(List.of(List.of(List.of(1, 2, 3, 4))), cylinders("", 4));
    assertEquals(
        List.of(List.of(List.of(1, 3, 5, 7), List.of(2, 4, 6, 8))),
        cylinders("1;3;5;7|2;4;6;8", 8));
  }

  @Test
  void aLongEngineTakesABandPerBank() {
    assertEquals(
        List.of(List.of(List.of(1, 2, 3, 4, 5, 6)), List.of(List.of(7, 8, 9, 10, 11, 12))),
        cylinders("1-6|7-12", 12));
  }

  @Test
  void aBankTooLongForThePaperIsSplitEvenly() {
    assertEquals(
        List.of(List.of(List.of(1, 2, 3, 4, 5)), List.of(List.of(6, 7, 8, 9, 10))),
        cylinders("", 10));
  }

  @ParameterizedTest
  @CsvSource({
    "1|2|3|4|5|6|7|8|9|10|11|12|13|14|15|16,16",
    "1-5|6-10|11-15,15",
    "1-5|6-10|11-16,16",
    "1-4|5-8|9-12|13-16,16",
    "1-16,16",
    "1-9|10-16,16"
  })
  void noEngineTakesMoreThanThreeBandsOrMoreThanEightBoxesAcross(String banks, int count) {
    List<List<List<Integer>>> bands = cylinders(banks, count);
    assertTrue(bands.size() <= 3, bands.toString());
    assertTrue(bands.stream().allMatch(b -> b.stream().mapToInt(List::size).sum() <= Bands.WIDEST));
    assertEquals(count, bands.stream().flatMap(List::stream).mapToInt(List::size).sum());
  }
}
