package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The bundled fleet where most marks may be false, so that improbable engines are marked too. */
class GenerousNightTest {
  private static final double MAX_FALSE_SHARE = 0.99;

  @Test
  void engineMarkedAtALowProbabilityIsToldOfInFull(@TempDir Path store) {
    NightSettings settings =
        new NightSettings(
            Nights.SAMPLE,
            store,
            Nights.SAMPLE_AS_OF,
            MAX_FALSE_SHARE,
            NightSettings.DEFAULT_KEEP_SNAPSHOTS,
            NightSettings.DEFAULT_LARGE_FLEET_FROM,
            Map.of());
    NightResult night = new NightlyJob(settings, Nights.SILENT).run();
    double lowest =
        Double.parseDouble(
            TableContent.value(store, "SELECT min(fault_probability) FROM work_list"));
    assertTrue(lowest < ScreeningStage.USUALLY_WORTH_A_BRIEF, "lowest " + lowest);
    assertEquals(
        String.valueOf(night.marked()),
        TableContent.value(
            store,
            "SELECT count(*) FROM work_list WHERE length(evidence) > 0 AND length(next_step) > 0"
                + " AND priority IS NOT NULL AND \"limit\" IS NOT NULL"));
    assertEquals(
        "0",
        TableContent.value(
            store,
            "SELECT count(*) FROM work_list w JOIN engine_status s USING (vehicle_id)"
                + " WHERE NOT list_contains(s.reasons, w.main_reason)"
                + " OR s.suspect_cylinders IS DISTINCT FROM w.suspect_cylinders"));
  }
}
