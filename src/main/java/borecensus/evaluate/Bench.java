package borecensus.evaluate;

import borecensus.domain.CompressionTest;
import borecensus.domain.Gauge;
import borecensus.domain.SheetKind;
import borecensus.domain.Site;
import borecensus.domain.Throttle;
import borecensus.intake.SheetRow;
import borecensus.ledger.LedgerSheet;
import borecensus.ledger.SettledTest;
import borecensus.normalise.Normaliser;
import borecensus.physics.ReferencePressure;
import borecensus.physics.StandardAtmosphere;
import borecensus.registers.Registers;
import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.random.RandomGenerator;

/** Where tests are made: turns true pressures into a sheet, and the sheet into what is learned. */
final class Bench {
  /** Standard deviation of the weather's pressure about the standard atmosphere's. */
  private static final double WEATHER_SD_HPA = 6;

  private static final double STATION_SHARE = 0.5;
  private static final double QNH_SHARE = 0.2;

  private final Registers registers;
  private final Normaliser normaliser;

  Bench(Registers registers) {
    this.registers = registers;
    this.normaliser = new Normaliser(registers);
  }

  /**
   * What was done and what is known of it.
   *
   * @param weatherVariance of the log reading: zero where a barometer was read
   */
  record Result(CompressionTest test, double weatherVariance) {}

  /**
   * Makes one test.
   *
   * @param day when
   * @param logKpa true log readings of this gauge, at reference ambient pressure
   */
  Result test(Subject subject, LocalDateTime day, double[] logKpa, RandomGenerator random) {
    Site site = registers.sites().get(subject.siteId());
    Gauge gauge = registers.gauges().get(subject.gaugeId());
    double heightM = StandardAtmosphere.geopotentialHeightM(site.elevationM());
    double standardHpa = StandardAtmosphere.pressureHpa(heightM);
    double ambientHpa = standardHpa + WEATHER_SD_HPA * random.nextGaussian();
    double[] dial = Arrays.stream(logKpa).map(log -> shown(log, ambientHpa, gauge)).toArray();
    double source = random.nextDouble();
    double stationHpa = source < STATION_SHARE ? Math.rint(ambientHpa) : Double.NaN;
    boolean byQnh = source >= STATION_SHARE && source < STATION_SHARE + QNH_SHARE;
    double qnhHpa = byQnh ? Math.rint(qnh(ambientHpa, heightM)) : Double.NaN;
    SheetRow row = row(subject, day, stationHpa, qnhHpa, gauge, dial);
    SettledTest settled = new SettledTest(new LedgerSheet(1, row), subject.engineId(), List.of());
    boolean barometer = source < STATION_SHARE + QNH_SHARE;
    double relativeSd = barometer ? 0 : WEATHER_SD_HPA / standardHpa;
    return new Result(
        normaliser.normalise(settled, site.siteId(), dial.length), relativeSd * relativeSd);
  }

  /** Who is tested where, at which distance and with what. */
  record Subject(
      String testId, String engineId, double distanceKm, String siteId, String gaugeId) {}

  private static double shown(double logKpa, double ambientHpa, Gauge gauge) {
    double kpa = ReferencePressure.fromReferenceKpa(Math.exp(logKpa), ambientHpa);
    return gauge.resolution() * Math.rint(gauge.unit().fromKpa(kpa) / gauge.resolution());
  }

  /** The QNH of a place at this pressure and geopotential height. */
  static double qnh(double ambientHpa, double heightM) {
    return StandardAtmosphere.pressureHpa(
        StandardAtmosphere.pressureAltitudeM(ambientHpa) - heightM);
  }

  private static SheetRow row(
      Subject subject,
      LocalDateTime day,
      double stationHpa,
      double qnhHpa,
      Gauge gauge,
      double[] dial) {
    return new SheetRow(
        "sheets/evaluation.csv",
        List.of(1L),
        subject.testId(),
        subject.engineId(),
        "",
        day,
        subject.distanceKm(),
        Double.NaN,
        subject.siteId(),
        Double.NaN,
        stationHpa,
        qnhHpa,
        gauge.gaugeId(),
        gauge.unit(),
        SheetKind.DRY,
        Throttle.OPEN,
        Double.NaN,
        Double.NaN,
        Double.NaN,
        "",
        "",
        dial,
        new double[0],
        dial.length,
        dial.length);
  }
}
