package borecensus.bay;

import borecensus.intake.RowRefusal;
import borecensus.intake.SheetFile;
import borecensus.intake.SheetItem;
import borecensus.intake.SheetRow;
import borecensus.ledger.LedgerSheet;
import borecensus.published.LookupException;
import borecensus.published.LookupFiles;
import borecensus.published.PublishedModel;
import borecensus.published.VehicleDossier;
import borecensus.tabular.TableReader;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Checks a sheet file against one snapshot, which is only read. */
public final class SheetChecker {
  /** More is a depot's files, which go into the fleet folder. */
  static final int MOST_RECORDS = 1_000;

  private static final Comparator<RowRefusal> BY_ROW =
      Comparator.comparingLong(RowRefusal::rowNumber);

  private final String snapshotId;
  private final LookupFiles files;
  private final PublishedModel model;

  private SheetChecker(String snapshotId, LookupFiles files, PublishedModel model) {
    this.snapshotId = snapshotId;
    this.files = files;
    this.model = model;
  }

  /**
   * Opens the lookup of a snapshot.
   *
   * @throws LookupException when it has none that can be read
   */
  public static SheetChecker open(String snapshotId, LookupFiles files) throws LookupException {
    return new SheetChecker(snapshotId, files, files.model());
  }

  /**
   * Checks a file.
   *
   * @param name of the file, for messages
   * @param table the file, open; it is closed
   * @param today later tests are refused; the night's own date counts where it is later
   * @throws LookupException when the snapshot cannot be read
   * @throws TooManyTestsException when the file is no bay's sheet
   */
  public CheckedFile check(String name, TableReader table, LocalDate today)
      throws LookupException, TooManyTestsException {
    Taken taken = new Taken();
    for (Iterator<SheetItem> items = SheetFile.read(name, table); items.hasNext(); ) {
      taken.take(items.next());
    }
    LocalDate asOf = today.isAfter(model.asOf()) ? today : model.asOf();
    VehicleCheck check = new VehicleCheck(model, asOf);
    List<CheckedSheet> sheets = new ArrayList<>();
    for (Map.Entry<String, List<LedgerSheet>> vehicle : taken.byVehicle.entrySet()) {
      Optional<VehicleDossier> dossier = files.dossier(vehicle.getKey(), model.buckets());
      VehicleCheck.Answer answer =
          dossier.isPresent()
              ? check.check(dossier.get(), vehicle.getValue())
              : check.unknown(vehicle.getValue());
      sheets.addAll(answer.sheets());
      taken.refusals.addAll(answer.refusals());
    }
    sheets.sort(Comparator.comparing(sheet -> firstRow(sheet.row())));
    taken.refusals.sort(BY_ROW);
    return new CheckedFile(snapshotId, model.asOf(), sheets, taken.refusals, taken.notes);
  }

  /** What the file turns out to hold. */
  private static final class Taken {
    private final Map<String, List<LedgerSheet>> byVehicle = new LinkedHashMap<>();
    private final List<RowRefusal> refusals = new ArrayList<>();
    private final List<String> notes = new ArrayList<>();
    private int records;

    void take(SheetItem item) throws TooManyTestsException {
      records++;
      if (records > MOST_RECORDS) {
        throw new TooManyTestsException(MOST_RECORDS);
      }
      if (item instanceof SheetItem.Test test) {
        byVehicle
            .computeIfAbsent(test.row().vehicleId(), id -> new ArrayList<>())
            .add(new LedgerSheet(VehicleCheck.NEW, test.row()));
      } else if (item instanceof SheetItem.Refused refused) {
        refusals.add(refused.refusal());
      } else if (item instanceof SheetItem.End end) {
        end.unknownColumns().forEach(column -> notes.add(ignored(column)));
      }
    }
  }

  private static long firstRow(SheetRow row) {
    return row.rowNumbers().get(0);
  }

  private static String ignored(String column) {
    return "The column '" + column + "' is ignored: it is not one of ours.";
  }
}
