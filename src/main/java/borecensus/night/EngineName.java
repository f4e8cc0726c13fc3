package borecensus.night;

/** By which an engine is known again from one night to the next. */
record EngineName(String vehicleId, String engineId) {}
