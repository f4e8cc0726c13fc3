package borecensus.packed;

import static org.junit.jupiter.api.Assertions.assertEquals;

import borecensus.domain.AmbientSource;
import borecensus.domain.Cause;
import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.domain.FindingResult;
import borecensus.domain.SheetKind;
import java.lang.reflect.RecordComponent;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;

class HistoryBytesTest {

  /** Every component of a record, named, so that a new one is compared as well. */
  private static Object told(Object value) throws ReflectiveOperationException {
    if (value instanceof Double real) {
      return Double.doubleToRawLongBits(real);
    }
    if (value instanceof double[] reals) {
      return Arrays.stream(reals).mapToObj(Double::doubleToRawLongBits).toList();
    }
    List<Object> told = new ArrayList<>();
    if (value instanceof List<?> values) {
      for (Object one : values) {
        told.add(told(one));
      }
      return told;
    }
    if (!(value instanceof Record)) {
      return value;
    }
    for (RecordComponent component : value.getClass().getRecordComponents()) {
      told.add(component.getName());
      told.add(told(component.getAccessor().invoke(value)));
    }
    return told;
  }

  @Provide
  Arbitrary<EngineHistory> histories() {
    return Arbitraries.randomValue(HistoryBytesTest::history);
  }

  private static EngineHistory history(Random random) {
    return new EngineHistory(
        word(random),
        word(random),
        word(random),
        word(random),
        random.nextBoolean(),
        IntStream.range(0, random.nextInt(6)).mapToObj(i -> test(random)).toList(),
        IntStream.range(0, random.nextInt(4)).mapToObj(i -> finding(random)).toList());
  }

  private static CompressionTest test(Random random) {
    return new CompressionTest(
        "T" + random.nextInt(),
        word(random),
        LocalDateTime.ofEpochSecond(
            random.nextInt(), random.nextInt(1_000_000_000), java.time.ZoneOffset.UTC),
        real(random),
        real(random),
        word(random),
        word(random),
        oneOf(SheetKind.values(), random),
        real(random),
        oneOf(AmbientSource.values(), random),
        reals(random),
        reals(random),
        reals(random),
        real(random),
        real(random),
        Arrays.stream(Doubt.values()).filter(doubt -> random.nextInt(4) == 0).toList(),
        word(random),
        random.nextLong());
  }

  private static Finding finding(Random random) {
    return new Finding(
        "",
        LocalDate.ofEpochDay(random.nextInt(40_000)),
        oneOf(FindingResult.values(), random),
        random.nextBoolean() ? null : oneOf(Cause.values(), random),
        random.ints(random.nextInt(4), 1, 17).boxed().toList());
  }

  private static String word(Random random) {
    String[] words = {"", "A-17", "Überland 4", "\uD83D\uDE97", "sheets/2026/a.csv", "日本"};
    return oneOf(words, random);
  }

  private static <T> T oneOf(T[] values, Random random) {
    return values[random.nextInt(values.length)];
  }

  private static double real(Random random) {
    return switch (random.nextInt(4)) {
      case 0 -> Double.NaN;
      case 1 -> random.nextInt(20_000) / 10.0;
      case 2 -> Double.longBitsToDouble(random.nextLong());
      default -> 2_000 * random.nextDouble();
    };
  }

  private static double[] reals(Random random) {
    return IntStream.range(0, random.nextInt(17)).mapToDouble(i -> real(random)).toArray();
  }

  @Property
  void everyHistoryComesBackAsItWas(@ForAll("histories") EngineHistory history)
      throws ReflectiveOperationException {
    // A finding's vehicle is that of its history.
    EngineHistory own =
        history.withFindings(
            history.findings().stream()
                .map(
                    f ->
                        new Finding(
                            history.vehicleId(),
                            f.inspectedOn(),
                            f.result(),
                            f.cause(),
                            f.cylinders()))
                .toList());
    assertEquals(told(own), told(HistoryBytes.read(HistoryBytes.write(own))));
  }

  @Test
  void anIdThatEveryTestCarriesIsWrittenOnce() {
    Random random = new Random(5);
    CompressionTest test = test(random);
    EngineHistory one = new EngineHistory("V", "E", "F", "S", true, List.of(test));
    EngineHistory two = one.withTests(List.of(test, test));
    EngineHistory three = one.withTests(List.of(test, test, test));
    int first = HistoryBytes.write(two).length - HistoryBytes.write(one).length;
    int second = HistoryBytes.write(three).length - HistoryBytes.write(two).length;
    assertEquals(first, second);
    int written =
        HistoryBytes.write(one).length - HistoryBytes.write(one.withTests(List.of())).length;
    org.junit.jupiter.api.Assertions.assertTrue(first < written, first + " of " + written);
  }
}
