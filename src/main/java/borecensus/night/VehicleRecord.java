package borecensus.night;

/** What a record of a vehicle's block is. */
enum VehicleRecord {
  VEHICLE,
  REPAIR,
  FINDING,
  TEST
}
