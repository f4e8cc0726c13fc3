package borecensus.dictionary;

import borecensus.causes.CauseEvidence;
import borecensus.causes.CausePrior;
import borecensus.domain.Cause;
import borecensus.domain.Doubt;
import borecensus.domain.Limits;
import borecensus.domain.PressureUnit;
import borecensus.domain.Reason;
import borecensus.domain.RowCode;
import borecensus.intake.SheetColumn;
import borecensus.tables.Column;
import borecensus.tables.Table;
import borecensus.worklist.FollowUp;
import borecensus.worklist.NextSteps;
import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Every file of {@code shared/} by name, as text. */
public final class Dictionary {
  private Dictionary() {}

  /** File names and contents; the same code gives the same text. */
  public static Map<String, String> files() {
    Map<String, String> files = new TreeMap<>();
    files.put("tables.csv", tables());
    files.put("sheet_columns.csv", sheetColumns());
    files.put("row_codes.csv", rowCodes());
    files.put("reasons.csv", reasons());
    files.put("doubts.csv", doubts());
    files.put("units.csv", units());
    files.put("follow_up.csv", followUp());
    files.put("causes.csv", causes());
    files.put("cause_priors.csv", causePriors());
    files.put("cause_evidence.csv", causeEvidence());
    return files;
  }

  private static String tables() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("table", "grain", "column", "type", "meaning"));
    for (Table table : Table.values()) {
      for (Column column : table.columns()) {
        rows.add(
            List.of(
                table.tableName(),
                table.grain(),
                column.name(),
                column.type().words(),
                column.meaning()));
      }
    }
    return csv(rows);
  }

  private static String sheetColumns() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("column", "meaning"));
    for (SheetColumn column : SheetColumn.values()) {
      rows.add(List.of(column.columnName(), column.meaning()));
    }
    String last = String.valueOf(Limits.MAX_CYLINDERS);
    rows.add(
        List.of(
            SheetColumn.READING_PREFIX + "1 ... " + SheetColumn.READING_PREFIX + last,
            "peak gauge pressure of each cylinder; empty = not read, 0 = dead cylinder"));
    rows.add(
        List.of(
            SheetColumn.FIRST_PREFIX + "1 ... " + SheetColumn.FIRST_PREFIX + last,
            "first-stroke readings; optional"));
    return csv(rows);
  }

  private static String rowCodes() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("code", "meaning", "remedy"));
    for (RowCode code : RowCode.values()) {
      rows.add(List.of(code.code(), code.meaning(), code.remedy()));
    }
    return csv(rows);
  }

  private static String reasons() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("reason", "meaning"));
    for (Reason reason : Reason.values()) {
      rows.add(List.of(reason.code(), reason.meaning()));
    }
    return csv(rows);
  }

  private static String doubts() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("doubt", "meaning", "remedy"));
    for (Doubt doubt : Doubt.values()) {
      rows.add(List.of(doubt.code(), doubt.meaning(), doubt.remedy()));
    }
    return csv(rows);
  }

  private static String units() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("unit", "kpa_per_unit", "usual_resolution"));
    for (PressureUnit unit : PressureUnit.values()) {
      rows.add(
          List.of(
              unit.code(),
              String.valueOf(unit.kpaPerUnit()),
              String.valueOf(unit.usualResolution())));
    }
    return csv(rows);
  }

  private static String followUp() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("reason", "order", "step", "phase", "for", "instruction", "source"));
    for (Reason reason : Reason.values()) {
      List<FollowUp> steps = NextSteps.declared(reason);
      for (int i = 0; i < steps.size(); i++) {
        FollowUp step = steps.get(i);
        rows.add(
            List.of(
                reason.code(),
                String.valueOf(i + 1),
                step.code(),
                step.phase().code(),
                step.condition(),
                step.instruction(),
                step.source()));
      }
    }
    return csv(rows);
  }

  private static String causes() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("cause", "meaning"));
    for (Cause cause : Cause.values()) {
      rows.add(List.of(cause.code(), cause.meaning()));
    }
    return csv(rows);
  }

  private static String causePriors() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("reason", "cause", "share", "source"));
    for (CausePrior prior : CausePrior.values()) {
      for (Cause cause : Cause.values()) {
        String share = String.valueOf(prior.share(cause));
        rows.add(List.of(prior.pattern().code(), cause.code(), share, CausePrior.SOURCE));
      }
    }
    return csv(rows);
  }

  private static String causeEvidence() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("evidence", "cause", "likelihood", "meaning", "source"));
    for (CauseEvidence evidence : CauseEvidence.values()) {
      for (Cause cause : Cause.values()) {
        rows.add(
            List.of(
                evidence.code(),
                cause.code(),
                String.valueOf(evidence.likelihood(cause)),
                evidence.meaning(),
                evidence.source()));
      }
    }
    return csv(rows);
  }

  private static String csv(List<List<String>> rows) {
    StringWriter text = new StringWriter();
    CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(text);
    rows.forEach(csv::writeRecord);
    return text.toString();
  }
}
