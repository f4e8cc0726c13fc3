package borecensus.evaluate;

import java.time.LocalDate;
import org.apache.commons.math3.random.RandomGenerator;

/** The gauges of a fleet: which one is at hand, and how far above the truth it reads. */
interface GaugeStock {

  /** The gauge that a test at a site is made with. */
  String pick(int site, RandomGenerator random);

  /** What a gauge adds to the log reading on a day. */
  double offsetLog(String gaugeId, LocalDate day);
}
