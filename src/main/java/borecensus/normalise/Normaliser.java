package borecensus.normalise;

import borecensus.domain.CompressionTest;
import borecensus.domain.EngineHistory;
import borecensus.domain.PressureUnit;
import borecensus.domain.Vehicle;
import borecensus.intake.SheetRow;
import borecensus.ledger.SettledTest;
import borecensus.ledger.SettledVehicle;
import borecensus.ledger.SettledVehicle.Segment;
import borecensus.physics.ReferencePressure;
import borecensus.registers.Registers;
import java.util.ArrayList;
import java.util.List;

/** Brings settled sheets to kilopascal and to reference conditions. */
public final class Normaliser {
  private final Registers registers;

  public Normaliser(Registers registers) {
    this.registers = registers;
  }

  /** The histories of all engines of a settled vehicle, the one in service last. */
  public List<EngineHistory> histories(SettledVehicle settled) {
    Vehicle vehicle = settled.vehicle();
    int cylinders = registers.families().get(vehicle.familyId()).cylinders();
    List<EngineHistory> histories = new ArrayList<>(settled.segments().size());
    for (Segment segment : settled.segments()) {
      List<CompressionTest> tests = new ArrayList<>(segment.tests().size());
      for (SettledTest test : segment.tests()) {
        tests.add(normalise(test, vehicle.homeSiteId(), cylinders));
      }
      histories.add(
          new EngineHistory(
              vehicle.vehicleId(),
              segment.engineId(),
              vehicle.familyId(),
              vehicle.homeSiteId(),
              segment.originalEngine(),
              tests,
              segment.findings()));
    }
    return histories;
  }

  /** One test at reference conditions. */
  public CompressionTest normalise(SettledTest test, String homeSiteId, int cylinders) {
    SheetRow row = test.row();
    AmbientPressure ambient = AmbientPressure.at(row, homeSiteId, registers);
    double[] gaugeKpa = kpa(row.readings(), row.unit(), cylinders);
    double[] firstKpa =
        row.firstReadings().length == 0
            ? new double[0]
            : kpa(row.firstReadings(), row.unit(), cylinders);
    return new CompressionTest(
        row.testId(),
        test.engineId(),
        row.testedAt(),
        row.odometerKm(),
        row.engineHours(),
        row.siteId().isEmpty() ? homeSiteId : row.siteId(),
        row.gaugeId(),
        row.kind(),
        ambient.hpa(),
        ambient.source(),
        gaugeKpa,
        atReference(gaugeKpa, ambient.hpa()),
        atReference(firstKpa, ambient.hpa()),
        row.engineTempC(),
        row.crankingRpm(),
        test.doubts(),
        row.sourceFile(),
        row.rowNumbers().get(0));
  }

  /** In kilopascal, one element per cylinder of the family; NaN behind the sheet's last reading. */
  private static double[] kpa(double[] readings, PressureUnit unit, int cylinders) {
    double[] kpa = new double[cylinders];
    for (int i = 0; i < cylinders; i++) {
      kpa[i] = i < readings.length ? unit.toKpa(readings[i]) : Double.NaN;
    }
    return kpa;
  }

  private static double[] atReference(double[] gaugeKpa, double ambientHpa) {
    double[] referenceKpa = new double[gaugeKpa.length];
    for (int i = 0; i < gaugeKpa.length; i++) {
      referenceKpa[i] = ReferencePressure.toReferenceKpa(gaugeKpa[i], ambientHpa);
    }
    return referenceKpa;
  }
}
