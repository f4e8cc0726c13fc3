package borecensus.worklist;

import borecensus.domain.Reason;
import java.time.LocalDate;
import java.util.List;

final class Entries {
  private Entries() {}

  static WorkListEntry entry(String vehicleId, String engineId, double priority) {
    return new WorkListEntry(
        1,
        vehicleId,
        engineId,
        "F",
        priority,
        0.5,
        Reason.LOW_CYLINDER,
        List.of(3, 4),
        "Cylinder 3 read 862 kPa.",
        "Repeat.",
        LocalDate.of(2026, 3, 30),
        "S");
  }
}
