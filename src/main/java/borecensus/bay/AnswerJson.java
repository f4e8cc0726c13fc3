package borecensus.bay;

import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.domain.Reason;
import borecensus.intake.RowRefusal;
import borecensus.norms.UsageAxis;
import borecensus.screening.ClearedEngine;
import borecensus.screening.EngineAssessment;
import borecensus.worklist.Cautions;
import borecensus.worklist.NextSteps;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.json.JsonWriteFeature;
import java.io.IOException;
import java.io.StringWriter;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * The answers for machines. Names are those of the snapshot's columns, numbers stand unrounded, and
 * what is not known is null. Everything beyond ASCII is escaped, so that no terminal is steered.
 */
public final class AnswerJson {
  private static final JsonFactory FACTORY =
      JsonFactory.builder().enable(JsonWriteFeature.ESCAPE_NON_ASCII).build();

  private final JsonGenerator out;

  private AnswerJson(JsonGenerator out) {
    this.out = out;
  }

  /** One JSON object and a line break. */
  public static String of(CheckedFile file) {
    StringWriter text = new StringWriter();
    try (JsonGenerator out = FACTORY.createGenerator(text).useDefaultPrettyPrinter()) {
      new AnswerJson(out).file(file);
    } catch (IOException impossible) {
      throw new IllegalStateException(impossible);
    }
    return text.append('\n').toString();
  }

  private void file(CheckedFile file) throws IOException {
    out.writeStartObject();
    out.writeStringField("snapshot_id", file.snapshotId());
    out.writeStringField("as_of", file.nightOf().toString());
    out.writeStringField("outcome", file.outcome().code());
    out.writeArrayFieldStart("sheets");
    for (CheckedSheet sheet : file.sheets()) {
      sheet(sheet);
    }
    out.writeEndArray();
    out.writeArrayFieldStart("refusals");
    for (RowRefusal refusal : file.refusals()) {
      refusal(refusal);
    }
    out.writeEndArray();
    texts("notes", file.notes());
    texts("cautions", Cautions.ALL);
    out.writeStringField("advice", Cautions.ADVICE_ONLY);
    out.writeEndObject();
  }

  private void sheet(CheckedSheet sheet) throws IOException {
    JudgedSheet judged = sheet.judged();
    out.writeStartObject();
    out.writeStringField("test_id", sheet.row().testId());
    out.writeStringField("vehicle_id", sheet.row().vehicleId());
    out.writeStringField("engine_id", judged.test().engineId());
    out.writeStringField("family_id", judged.history().familyId());
    out.writeStringField("tested_at", judged.test().testedAt().toString());
    out.writeStringField("gauge_id", judged.test().gaugeId());
    out.writeStringField("unit", sheet.row().unit().code());
    real("ambient_hpa", judged.test().ambientHpa());
    out.writeStringField("ambient_source", judged.test().ambientSource().code());
    out.writeStringField("outcome", sheet.outcome().code());
    texts("doubts", judged.test().doubts().stream().map(Doubt::code).toList());
    cylinders(sheet);
    engine(sheet);
    repeats(sheet.repeats());
    out.writeStringField("next_step", AnswerText.nextStep(sheet));
    texts("steps", steps(judged));
    texts("notes", sheet.notes());
    out.writeEndObject();
  }

  private static List<String> steps(JudgedSheet judged) {
    List<Reason> reasons = judged.reasons();
    return reasons.isEmpty() ? List.of() : NextSteps.steps(reasons.get(0), judged.norm().family());
  }

  private void cylinders(CheckedSheet sheet) throws IOException {
    out.writeArrayFieldStart("cylinders");
    for (CylinderLine cylinder : sheet.cylinders()) {
      out.writeStartObject();
      out.writeNumberField("cylinder", cylinder.cylinder());
      real("reading", sheet.row().unit().fromKpa(cylinder.gaugeKpa()));
      real("gauge_kpa", cylinder.gaugeKpa());
      real("reference_kpa", cylinder.referenceKpa());
      real("expected_kpa", cylinder.expectedKpa());
      real("deviation_pct", cylinder.deviationPct());
      out.writeEndObject();
    }
    out.writeEndArray();
  }

  private void engine(CheckedSheet sheet) throws IOException {
    JudgedSheet judged = sheet.judged();
    EngineAssessment assessment = judged.assessment();
    boolean km = judged.norm().axis() == UsageAxis.KM;
    out.writeObjectFieldStart("engine_status");
    out.writeStringField("judgement", assessment.judgement().code());
    out.writeNumberField("tests_used", assessment.testsUsed());
    real(km ? "distance_km" : "engine_hours", assessment.lastTest().usage());
    real("level_pct", assessment.lastTest().levelPct());
    real("level_z", assessment.lastTest().levelZ());
    real("spread_pct", assessment.lastTest().spreadPct());
    real("spread_z", assessment.lastTest().spreadZ());
    out.writeNumberField("lowest_cylinder", assessment.lastTest().lowestCylinder());
    real("trend_pct_per_100k_km", assessment.trend().pct());
    real("trend_z", assessment.trend().z());
    real("fault_probability", assessment.faultProbability());
    real("marked_from", judged.model().markedFrom());
    out.writeBooleanField("marked", judged.marked());
    texts("reasons", judged.reasons().stream().map(Reason::code).toList());
    numbers("suspect_cylinders", judged.suspects());
    if (judged.brief().isPresent()) {
      out.writeStringField("evidence", judged.brief().get().entry().evidence());
    } else {
      out.writeNullField("evidence");
    }
    inspection(judged.history());
    day("next_service_on", sheet.vehicle().nextServiceOn());
    out.writeEndObject();
  }

  private void inspection(EngineHistory history) throws IOException {
    Optional<Finding> last = history.lastFinding();
    day("inspected_on", last.map(Finding::inspectedOn).orElse(null));
    text("inspection_result", last.map(f -> f.outcome().code()).orElse(null));
    day("cleared_on", ClearedEngine.clearance(history).map(Finding::inspectedOn).orElse(null));
  }

  private void repeats(List<Repeat> repeats) throws IOException {
    out.writeArrayFieldStart("repeats");
    for (Repeat repeat : repeats) {
      out.writeStartObject();
      out.writeStringField("kind", repeat.kind().code());
      numbers("cylinders", repeat.cylinders());
      out.writeStringField("sentence", repeat.sentence());
      out.writeEndObject();
    }
    out.writeEndArray();
  }

  private void refusal(RowRefusal refusal) throws IOException {
    out.writeStartObject();
    out.writeStringField("source_file", refusal.sourceFile());
    out.writeNumberField("row_number", refusal.rowNumber());
    out.writeStringField("code", refusal.code().code());
    out.writeStringField("column", refusal.column());
    out.writeStringField("value", refusal.value());
    out.writeStringField("message", refusal.message());
    out.writeEndObject();
  }

  private void real(String name, double value) throws IOException {
    if (Double.isFinite(value)) {
      out.writeNumberField(name, value);
    } else {
      out.writeNullField(name);
    }
  }

  private void day(String name, LocalDate day) throws IOException {
    text(name, day == null ? null : day.toString());
  }

  private void text(String name, String text) throws IOException {
    if (text == null) {
      out.writeNullField(name);
    } else {
      out.writeStringField(name, text);
    }
  }

  private void texts(String name, List<String> values) throws IOException {
    out.writeArrayFieldStart(name);
    for (String value : values) {
      out.writeString(value);
    }
    out.writeEndArray();
  }

  private void numbers(String name, List<Integer> values) throws IOException {
    out.writeArrayFieldStart(name);
    for (int value : values) {
      out.writeNumber(value);
    }
    out.writeEndArray();
  }
}
