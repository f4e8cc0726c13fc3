package borecensus.packed;

/** What a record of a vehicle is about. */
public enum VehicleRecord {
  VEHICLE,
  REPAIR,
  FINDING,
  TEST
}
