package borecensus.evaluate;

import java.time.LocalDate;
import java.util.List;
import java.util.SortedMap;
import org.apache.commons.math3.random.RandomGenerator;

/** Gauges spread evenly over the sites, whose offsets never change. */
final class SteadyGauges implements GaugeStock {
  private final List<String> gaugeIds;
  private final int perSite;
  private final SortedMap<String, Double> offsets;

  SteadyGauges(int sites, SortedMap<String, Double> offsets) {
    this.gaugeIds = List.copyOf(offsets.keySet());
    this.perSite = gaugeIds.size() / sites;
    this.offsets = offsets;
  }

  @Override
  public String pick(int site, RandomGenerator random) {
    return gaugeIds.get(site * perSite + random.nextInt(perSite));
  }

  @Override
  public double offsetLog(String gaugeId, LocalDate day) {
    return offsets.get(gaugeId);
  }
}
