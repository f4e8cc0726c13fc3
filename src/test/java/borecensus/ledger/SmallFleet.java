package borecensus.ledger;

import borecensus.domain.Banks;
import borecensus.domain.Family;
import borecensus.domain.Fuel;
import borecensus.domain.Gauge;
import borecensus.domain.PressureUnit;
import borecensus.domain.Repair;
import borecensus.domain.RepairWork;
import borecensus.domain.Site;
import borecensus.domain.Vehicle;
import borecensus.domain.WetTest;
import borecensus.registers.Registers;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;

/** Registers that {@link SheetBuilder}'s sheets are sound against. */
public final class SmallFleet {
  public static final LocalDate AS_OF = LocalDate.of(2026, 1, 1);

  /** Petrol, 4 cylinders, nominal 1200 kPa. */
  public static final Vehicle V1 = vehicle("V1", "F4", "");

  /** Family with a compression ratio and no nominal figure. */
  public static final Vehicle V2 = vehicle("V2", "RATIO", "");

  /** Diesel family of which nothing is known but the fuel. */
  public static final Vehicle V3 = vehicle("V3", "PLAIN", "");

  public static final Registers REGISTERS =
      new Registers(
          Map.of(
              "F4", family("F4", Fuel.PETROL, 4, Double.NaN, 1200),
              "F8", family("F8", Fuel.PETROL, 8, Double.NaN, 1200),
              "RATIO", family("RATIO", Fuel.PETROL, 4, 9.5, Double.NaN),
              "PLAIN", family("PLAIN", Fuel.DIESEL, 4, Double.NaN, Double.NaN)),
          Map.of(
              "G1", new Gauge("G1", PressureUnit.KPA, 10, 2000),
              "GD", new Gauge("GD", PressureUnit.KPA, 1, Double.NaN),
              "GP", new Gauge("GP", PressureUnit.PSI, 5, 300)),
          Map.of(
              "D1", new Site("D1", 0),
              "HIGH", new Site("HIGH", 1500),
              "LOW", new Site("LOW", -430)));

  private SmallFleet() {}

  public static Vehicle vehicle(String id, String family, String serial) {
    return new Vehicle(id, family, serial, null, "D1");
  }

  private static Family family(
      String id, Fuel fuel, int cylinders, double ratio, double nominalKpa) {
    return new Family(
        id,
        fuel,
        cylinders,
        Banks.inLine(cylinders),
        ratio,
        nominalKpa,
        Double.NaN,
        Double.NaN,
        WetTest.ALLOWED);
  }

  public static Repair repair(String date, RepairWork work, String newSerial) {
    return new Repair("V1", LocalDate.parse(date), work, newSerial);
  }

  public static Repair replaced(String date, String newSerial) {
    return repair(date, RepairWork.ENGINE_REPLACED, newSerial);
  }

  public static VehicleFile file(Vehicle vehicle, Repair... repairs) {
    return new VehicleFile(vehicle, List.of(repairs));
  }
}
