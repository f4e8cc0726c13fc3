package borecensus.report;

import borecensus.norms.FamilyNorm;
import java.util.List;

/**
 * Everything that a family's page shows.
 *
 * @param peers a bounded sample of engines that are not marked
 * @param marked engines of the family in the list, by rank, a bounded number
 */
public record FamilyPageData(
    NightFrame night, FamilyNorm norm, List<LastFigures> peers, List<ListedEngine> marked) {

  public FamilyPageData {
    peers = List.copyOf(peers);
    marked = List.copyOf(marked);
  }
}
