package borecensus.packed;

import borecensus.domain.PressureUnit;
import borecensus.domain.SheetKind;
import borecensus.domain.Throttle;
import borecensus.intake.SheetRow;
import borecensus.ledger.LedgerSheet;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;

/**
 * A test of the ledger as bytes without its vehicle, its fields in the order of {@link SheetRow}.
 * They are written straight from the columns of the ledger: the whole of it passes here, and making
 * objects of it only to take them apart again was a third of the time of settling it.
 */
public final class SheetBytes {
  private static final int MICROS_PER_SECOND = 1_000_000;
  private static final int NANOS_PER_MICRO = 1_000;

  private static final Map<String, PressureUnit> UNITS =
      byCode(PressureUnit.values(), PressureUnit::code);
  private static final Map<String, SheetKind> KINDS = byCode(SheetKind.values(), SheetKind::code);
  private static final Map<String, Throttle> THROTTLES = byCode(Throttle.values(), Throttle::code);

  private SheetBytes() {}

  /**
   * The sheet that was written.
   *
   * @param known texts of other sheets
   */
  public static LedgerSheet read(String vehicleId, ByteReader in, KnownTexts known) {
    long fileOrder = in.whole();
    SheetRow row =
        new SheetRow(
            in.text(known),
            rowNumbers(in),
            in.text(),
            vehicleId,
            in.text(),
            time(in.whole()),
            in.real(),
            in.real(),
            in.text(known),
            in.real(),
            in.real(),
            in.real(),
            in.text(known),
            UNITS.get(in.text(known)),
            KINDS.get(in.text(known)),
            THROTTLES.get(in.text(known)),
            in.real(),
            in.real(),
            in.real(),
            in.text(known),
            in.text(known),
            in.reals(),
            in.reals(),
            (int) in.whole(),
            (int) in.whole());
    return new LedgerSheet(fileOrder, row);
  }

  /** Where a sheet stands, without the rest of it. */
  public static RecordPlace place(ByteReader in) {
    long fileOrder = in.whole();
    in.skipBytes();
    in.count();
    return new RecordPlace(fileOrder, in.whole());
  }

  private static List<Long> rowNumbers(ByteReader in) {
    int count = (int) in.count();
    if (count == 1) {
      return List.of(in.whole());
    }
    List<Long> numbers = new ArrayList<>(count);
    for (int i = 0; i < count; i++) {
      numbers.add(in.whole());
    }
    return numbers;
  }

  private static LocalDateTime time(long micros) {
    return LocalDateTime.ofEpochSecond(
        Math.floorDiv(micros, MICROS_PER_SECOND),
        Math.floorMod(micros, MICROS_PER_SECOND) * NANOS_PER_MICRO,
        ZoneOffset.UTC);
  }

  private static <E> Map<String, E> byCode(E[] words, Function<E, String> code) {
    Map<String, E> byCode = new HashMap<>();
    for (E word : words) {
      byCode.put(code.apply(word), word);
    }
    return Map.copyOf(byCode);
  }
}
