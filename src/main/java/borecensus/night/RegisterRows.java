package borecensus.night;

import borecensus.domain.Cause;
import borecensus.domain.Finding;
import borecensus.domain.FindingResult;
import borecensus.domain.Repair;
import borecensus.domain.RepairWork;
import borecensus.domain.Vehicle;
import borecensus.ledger.VehicleFile;
import borecensus.night.RegisterField.Kind;
import borecensus.registers.RegisterProblem;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;

/** Rows of the vehicle and repair registers to and from the values of the domain. */
final class RegisterRows {
  private RegisterRows() {}

  static Row toRow(Vehicle vehicle, long order) {
    Object[] cells = cells(Kind.VEHICLE, vehicle.vehicleId(), order);
    put(cells, RegisterField.FAMILY_ID, vehicle.familyId());
    put(cells, RegisterField.ENGINE_SERIAL, vehicle.engineSerial());
    put(cells, RegisterField.IN_SERVICE_ON, vehicle.inServiceOn());
    put(cells, RegisterField.HOME_SITE_ID, vehicle.homeSiteId());
    put(cells, RegisterField.NEXT_SERVICE_ON, vehicle.nextServiceOn());
    return RowFactory.create(cells);
  }

  static Row toRow(Repair repair, long order) {
    Object[] cells = cells(Kind.REPAIR, repair.vehicleId(), order);
    put(cells, RegisterField.ENGINE_SERIAL, repair.newEngineSerial());
    put(cells, RegisterField.DONE_ON, repair.doneOn());
    put(cells, RegisterField.WORK, repair.work().code());
    return RowFactory.create(cells);
  }

  static Row toRow(Finding finding, long order) {
    Object[] cells = cells(Kind.FINDING, finding.vehicleId(), order);
    put(cells, RegisterField.DONE_ON, finding.inspectedOn());
    put(cells, RegisterField.RESULT, finding.result().code());
    put(cells, RegisterField.CAUSE, finding.cause() == null ? null : finding.cause().code());
    put(cells, RegisterField.CYLINDERS, finding.cylinders().toArray(new Integer[0]));
    return RowFactory.create(cells);
  }

  static Row toRow(RegisterProblem problem) {
    Object[] cells = cells(Kind.PROBLEM, "", 0);
    put(cells, RegisterField.FILE, problem.file());
    put(cells, RegisterField.ROW_NUMBER, problem.rowNumber());
    put(cells, RegisterField.COLUMN, problem.column());
    put(cells, RegisterField.VALUE, problem.value());
    put(cells, RegisterField.MESSAGE, problem.message());
    return RowFactory.create(cells);
  }

  private static Object[] cells(Kind kind, String vehicleId, long order) {
    Object[] cells = new Object[RegisterField.values().length];
    put(cells, RegisterField.KIND, kind.name());
    put(cells, RegisterField.VEHICLE_ID, vehicleId);
    put(cells, RegisterField.ORDER, order);
    return cells;
  }

  private static void put(Object[] cells, RegisterField field, Object value) {
    cells[field.ordinal()] = value;
  }

  /** All register rows of one vehicle; null when none of them is the vehicle itself. */
  static VehicleFile toVehicleFile(Iterator<Row> rows) {
    Vehicle vehicle = null;
    long firstOrder = Long.MAX_VALUE;
    List<Repair> repairs = new ArrayList<>();
    List<Finding> findings = new ArrayList<>();
    while (rows.hasNext()) {
      Row row = rows.next();
      long order = row.getLong(RegisterField.ORDER.ordinal());
      if (text(row, RegisterField.KIND).equals(Kind.REPAIR.name())) {
        repairs.add(repair(row));
      } else if (text(row, RegisterField.KIND).equals(Kind.FINDING.name())) {
        findings.add(finding(row));
      } else if (order < firstOrder) {
        // Of two rows with one id the first in the file counts.
        vehicle = toVehicle(row);
        firstOrder = order;
      }
    }
    return vehicle == null ? null : new VehicleFile(vehicle, repairs, findings);
  }

  /** The vehicle in a register row of kind vehicle. */
  static Vehicle toVehicle(Row row) {
    return new Vehicle(
        text(row, RegisterField.VEHICLE_ID),
        text(row, RegisterField.FAMILY_ID),
        text(row, RegisterField.ENGINE_SERIAL),
        row.getAs(RegisterField.IN_SERVICE_ON.ordinal()),
        text(row, RegisterField.HOME_SITE_ID),
        row.getAs(RegisterField.NEXT_SERVICE_ON.ordinal()));
  }

  private static Finding finding(Row row) {
    String cause = text(row, RegisterField.CAUSE);
    return new Finding(
        text(row, RegisterField.VEHICLE_ID),
        row.getAs(RegisterField.DONE_ON.ordinal()),
        FindingResult.of(text(row, RegisterField.RESULT)).orElseThrow(),
        cause == null ? null : Cause.of(cause).orElseThrow(),
        row.getList(RegisterField.CYLINDERS.ordinal()));
  }

  private static Repair repair(Row row) {
    return new Repair(
        text(row, RegisterField.VEHICLE_ID),
        row.getAs(RegisterField.DONE_ON.ordinal()),
        RepairWork.of(text(row, RegisterField.WORK)).orElseThrow(),
        text(row, RegisterField.ENGINE_SERIAL));
  }

  private static String text(Row row, RegisterField field) {
    return row.getString(field.ordinal());
  }
}
