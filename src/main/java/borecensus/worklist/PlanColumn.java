package borecensus.worklist;

import java.util.List;
import java.util.Locale;

/** The columns of plan.csv. */
public enum PlanColumn {
  RANK,
  VEHICLE_ID,
  ENGINE_ID,
  FAMILY_ID,
  SITE_ID,
  SCORE,
  WHY,
  LAST_TESTED_ON,
  NEXT_SERVICE_ON;

  /** The column's name in files. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** All names in order. */
  public static List<String> header() {
    return List.of(values()).stream().map(PlanColumn::code).toList();
  }
}
