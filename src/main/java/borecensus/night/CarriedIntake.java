package borecensus.night;

import borecensus.night.LedgerStage.TakenIn;
import borecensus.publish.SnapshotManifest;
import java.io.Serializable;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * What a night has read of the sheets and the ledger, so that the next need not read it again.
 *
 * @param batches of the ledger
 * @param files behind them
 * @param kinds rows of the ledger by {@link LedgerKind}
 * @param sheets as they stood in the fleet folder
 */
record CarriedIntake(
    List<String> batches, List<TakenIn> files, Map<String, Long> kinds, SheetPrints sheets)
    implements Serializable {

  CarriedIntake {
    batches = List.copyOf(batches);
    files = List.copyOf(files);
    kinds = new TreeMap<>(kinds);
  }

  /**
   * What the night of the current snapshot has handed on.
   *
   * @return empty where it has handed on nothing, or where it read the ledger by other rules
   */
  static Optional<CarriedIntake> of(NightInputs inputs, List<String> batches) {
    SnapshotManifest current = inputs.store().current().orElse(null);
    if (current == null
        || CarriedNight.of(inputs.store(), current)
            .filter(night -> night.basis().equals(TakenOver.basis(inputs)))
            .isEmpty()) {
      return Optional.empty();
    }
    String name = current.carried().get(0);
    return CarriedNight.read(CarriedNight.intake(inputs.store(), name), CarriedIntake.class)
        .filter(intake -> intake.batches().equals(batches));
  }

  /** Records of all files. */
  long records() {
    return files.stream().mapToLong(TakenIn::records).sum();
  }

  /** Whether the ledger has rows of a kind. */
  boolean has(LedgerKind kind) {
    return kinds.getOrDefault(kind.code(), 0L) > 0;
  }

  /** Rows by kind, with those of another batch. */
  Map<String, Long> kindsWith(Map<String, Long> more) {
    Map<String, Long> all = new TreeMap<>(kinds);
    more.forEach((kind, rows) -> all.merge(kind, rows, Long::sum));
    return all;
  }
}
