package borecensus.ledger;

import borecensus.domain.RowCode;
import borecensus.intake.RowRefusal;
import borecensus.intake.SheetColumn;
import borecensus.intake.SheetRow;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What several sheets under one test_id mean: the same sheet sent again, a correction in a later
 * file, or two different sheets under one number.
 */
public final class TestIdentity {

  /** How a sheet relates to an earlier one under the same test_id. */
  public enum Relation {
    /** Word for word the same: the later one is superseded. */
    REPEAT,
    /** A later file corrects it: the earlier one is superseded. */
    CORRECTION,
    /** Another test altogether: the later one is refused. */
    ANOTHER_TEST
  }

  private TestIdentity() {}

  /**
   * Relates a sheet to an earlier one. In one file a number is given once. In a later file the same
   * number means a correction, unless vehicle and date both differ: two depots that number their
   * sheets alike must not wipe out each other's tests.
   */
  public static Relation relate(LedgerSheet earlier, LedgerSheet later) {
    SheetRow a = earlier.row();
    SheetRow b = later.row();
    if (a.content().equals(b.content())) {
      return Relation.REPEAT;
    }
    boolean anotherVehicle = !a.vehicleId().equals(b.vehicleId());
    boolean anotherDate = !a.testedAt().toLocalDate().equals(b.testedAt().toLocalDate());
    return earlier.sameFileAs(later) || (anotherVehicle && anotherDate)
        ? Relation.ANOTHER_TEST
        : Relation.CORRECTION;
  }

  /** The refusal of a sheet that stands under the number of another one. */
  public static RowRefusal duplicateOf(LedgerSheet kept, LedgerSheet refused) {
    SheetRow first = kept.row();
    return RowRefusal.of(
        refused.row().place(),
        RowCode.DUPLICATE_OF,
        SheetColumn.TEST_ID.columnName(),
        refused.row().testId(),
        "another sheet under this test_id stands in %s, row %d"
            .formatted(first.sourceFile(), first.rowNumbers().get(0)));
  }

  /** A sheet that stands, with the last file that states it word for word. */
  private record Standing(LedgerSheet sheet, long lastStatedIn) {
    Relation relate(LedgerSheet later) {
      Relation relation = TestIdentity.relate(sheet, later);
      // A file that repeats old sheets and adds one under an old number gives the number twice.
      return relation == Relation.CORRECTION && later.fileOrder() == lastStatedIn
          ? Relation.ANOTHER_TEST
          : relation;
    }
  }

  /** The sheets that stand, one per test_id; what becomes of the others goes to the outcome. */
  static List<LedgerSheet> resolve(List<LedgerSheet> sheetsByIntake, Outcome.Builder outcome) {
    Map<String, Standing> standing = new LinkedHashMap<>();
    for (LedgerSheet sheet : sheetsByIntake) {
      String testId = sheet.row().testId();
      Standing now = new Standing(sheet, sheet.fileOrder());
      Standing earlier = standing.putIfAbsent(testId, now);
      if (earlier != null) {
        switch (earlier.relate(sheet)) {
          case REPEAT -> {
            outcome.supersede(sheet);
            standing.put(testId, new Standing(earlier.sheet(), sheet.fileOrder()));
          }
          case ANOTHER_TEST -> outcome.refuse(sheet, duplicateOf(earlier.sheet(), sheet));
          case CORRECTION -> {
            outcome.supersede(earlier.sheet());
            standing.put(testId, now);
          }
        }
      }
    }
    List<LedgerSheet> sheets = new ArrayList<>(standing.size());
    standing.values().forEach(stands -> sheets.add(stands.sheet()));
    return sheets;
  }

  /**
   * What becomes of sheets of different vehicles under one test_id. The vehicle that holds the
   * number keeps it, until a correction in a later file gives it to another. What several sheets of
   * the holding vehicle mean among themselves is settled with that vehicle.
   */
  public static Outcome resolveAcrossVehicles(List<LedgerSheet> sheets) {
    Outcome.Builder outcome = new Outcome.Builder();
    List<LedgerSheet> holders = new ArrayList<>();
    for (LedgerSheet sheet : sheets.stream().sorted(LedgerSheet.BY_INTAKE).toList()) {
      LedgerSheet holder = holders.isEmpty() ? sheet : holders.get(holders.size() - 1);
      if (holder.row().vehicleId().equals(sheet.row().vehicleId())) {
        holders.add(sheet);
      } else if (relate(holder, sheet) == Relation.CORRECTION) {
        holders.forEach(outcome::supersede);
        holders.clear();
        holders.add(sheet);
      } else {
        outcome.refuse(sheet, duplicateOf(holder, sheet));
      }
    }
    return outcome.build();
  }
}
