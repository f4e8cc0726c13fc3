package borecensus.packed;

import borecensus.domain.Cause;
import borecensus.domain.Finding;
import borecensus.domain.FindingResult;
import java.util.ArrayList;
import java.util.List;

/** A finding as bytes, without the vehicle that it stands with. */
final class FindingBytes {
  private static final FindingResult[] RESULTS = FindingResult.values();
  private static final Cause[] CAUSES = Cause.values();

  private FindingBytes() {}

  static void write(Finding finding, ByteWriter out) {
    out.day(finding.inspectedOn());
    out.word(finding.result());
    out.word(finding.cause());
    out.count(finding.cylinders().size());
    finding.cylinders().forEach(out::whole);
  }

  static Finding read(ByteReader in, String vehicleId) {
    return new Finding(vehicleId, in.day(), in.word(RESULTS), in.word(CAUSES), cylinders(in));
  }

  private static List<Integer> cylinders(ByteReader in) {
    List<Integer> cylinders = new ArrayList<>();
    for (long left = in.count(); left > 0; left--) {
      cylinders.add((int) in.whole());
    }
    return cylinders;
  }
}
