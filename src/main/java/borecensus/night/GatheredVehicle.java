package borecensus.night;

import borecensus.ledger.LedgerSheet;
import borecensus.ledger.VehicleFile;
import java.util.List;

/**
 * Everything that is known of one vehicle.
 *
 * @param file null when the vehicle is not registered
 * @param sheets in no order
 */
record GatheredVehicle(String vehicleId, VehicleFile file, List<LedgerSheet> sheets) {}
