package borecensus.norms;

import borecensus.domain.Fuel;
import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;

/** Reads the file of priors: one row per fuel, comments behind a hash sign. */
final class PriorsFile {
  private PriorsFile() {}

  static Map<Fuel, FuelPriors> read(Reader reader) {
    Map<Fuel, FuelPriors> byFuel = new EnumMap<>(Fuel.class);
    try (CsvReader<NamedCsvRecord> rows =
        CsvReader.builder().commentStrategy(CommentStrategy.SKIP).ofNamedCsvRecord(reader)) {
      for (NamedCsvRecord row : rows) {
        Fuel fuel =
            Fuel.of(row.getField("fuel"))
                .orElseThrow(
                    () -> new IllegalArgumentException("unknown fuel " + row.getField("fuel")));
        byFuel.put(fuel, of(row));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return byFuel;
  }

  private static FuelPriors of(NamedCsvRecord row) {
    return new FuelPriors(
        new Wear(
            number(row, "wear_pct_per_100k_km"),
            number(row, "wear_sd_pct_per_100k_km"),
            number(row, "bend_sd_pct")),
        VarianceComponents.ofSdPct(
            number(row, "engine_sd_pct"),
            number(row, "slope_sd_pct_per_100k_km"),
            number(row, "cylinder_sd_pct"),
            number(row, "test_sd_pct"),
            number(row, "reading_sd_pct")),
        number(row, "position_sd_pct"),
        number(row, "gauge_sd_pct"),
        shares(row),
        size(row, "cylinder_loss"),
        size(row, "level_loss"),
        size(row, "cylinder_gain"),
        number(row, "doubtful_sd_pct"),
        new PseudoEngines(
            number(row, "family_pseudo_engines"),
            number(row, "spread_pseudo_families"),
            number(row, "fleet_pseudo_engines"),
            number(row, "share_pseudo_engines")));
  }

  private static Map<Hypothesis, Double> shares(NamedCsvRecord row) {
    Map<Hypothesis, Double> shares = new EnumMap<>(Hypothesis.class);
    for (Hypothesis hypothesis : Hypothesis.values()) {
      String column = hypothesis.name().toLowerCase(Locale.ROOT) + "_share";
      double share = number(row, column);
      if (!(share > 0)) {
        throw new IllegalArgumentException(column + " must be above 0, not " + share);
      }
      shares.put(hypothesis, share);
    }
    return shares;
  }

  private static FaultSize size(NamedCsvRecord row, String stem) {
    return new FaultSize(number(row, stem + "_median_pct"), number(row, stem + "_log_sd"));
  }

  private static double number(NamedCsvRecord row, String column) {
    String text =
        row.findField(column)
            .orElseThrow(
                () -> new IllegalArgumentException("the priors lack the column " + column));
    try {
      return Double.parseDouble(text.strip());
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException(column + " is not a number: '" + text + "'", e);
    }
  }
}
