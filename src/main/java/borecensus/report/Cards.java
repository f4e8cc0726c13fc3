package borecensus.report;

import borecensus.worklist.WorkListEntry;

/** Marked engines as the list shows them. */
final class Cards {
  private Cards() {}

  record Card(
      String rank,
      String page,
      String vehicle,
      String engine,
      String family,
      String site,
      String tested,
      String probability,
      String priority,
      String reason,
      String suspects,
      String badge,
      String strip,
      String evidence,
      String next) {}

  static Card of(ListedEngine listed) {
    WorkListEntry entry = listed.entry();
    return new Card(
        String.valueOf(entry.rank()),
        listed.page(),
        ShownText.text(entry.vehicleId()),
        ShownText.text(entry.engineId()),
        ShownText.text(entry.familyId()),
        ShownText.text(entry.siteId()),
        entry.lastTestedOn() == null ? "–" : entry.lastTestedOn().toString(),
        ShownText.probability(entry.faultProbability()),
        ShownText.oneDecimal(entry.priority()),
        ShownText.capitalised(entry.mainReason().meaning()),
        ShownText.suspects(entry),
        listed.change().badge(),
        CylinderStrip.svg(listed.deviationPct(), entry.suspectCylinders()),
        ShownText.text(entry.evidence()),
        ShownText.text(entry.nextStep()));
  }
}
