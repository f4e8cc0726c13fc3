package borecensus.report;

import borecensus.domain.EngineHistory;
import borecensus.norms.FleetNorms;
import borecensus.screening.EngineAssessment;

/**
 * Everything that an engine's page shows.
 *
 * @param listed as it stands in the work list
 * @param history with every doubt that the fleet has raised
 * @param assessment of that history by these norms
 * @param familyPage page of its family, from the report's folder; empty when it has none
 */
public record EnginePageData(
    NightFrame night,
    ListedEngine listed,
    EngineHistory history,
    EngineAssessment assessment,
    FleetNorms norms,
    String familyPage) {}
