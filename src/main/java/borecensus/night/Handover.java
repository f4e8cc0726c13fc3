package borecensus.night;

import borecensus.causes.CauseTable;
import borecensus.norms.LearningPeriod;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.broadcast.Broadcast;

/**
 * Hands a night on to the next, where the fleet is large.
 *
 * @param intake of the night
 * @param name of the night's folders
 */
record Handover(NightInputs inputs, SettledFleet fleet, CarriedIntake intake, String name) {

  /**
   * Writes what the next night can build on.
   *
   * @param vehicles as {@link CarryStage#toCarry} makes them
   * @param screened their rows
   * @param causes by which the work list speaks
   * @param closedFiles files of readings that hold closed tests
   * @param buckets of the look-up
   * @param briefsFrom fault probability from which rows have what the work list would say
   * @return the folders, for the manifest
   */
  List<String> write(
      JavaRDD<byte[]> vehicles,
      KeptRows screened,
      Broadcast<NightModel> model,
      CauseTable causes,
      int closedFiles,
      int buckets,
      double briefsFrom) {
    if (fleet.period().equals(LearningPeriod.ALWAYS)) {
      return List.of();
    }
    SectionFiles.create(CarriedNight.vehicles(inputs.store(), name)).write(vehicles);
    SectionFiles.create(CarriedNight.screened(inputs.store(), name)).write(screened.blocks());
    Path modelFile = CarriedNight.model(inputs.store(), name);
    fleet
        .before()
        .ifPresentOrElse(
            night ->
                inputs.store().share(CarriedNight.model(inputs.store(), night.name()), modelFile),
            () -> CarriedNight.write(modelFile, model.value()));
    CarriedNight.write(CarriedNight.causes(inputs.store(), name), causes);
    CarriedNight.write(CarriedNight.intake(inputs.store(), name), intake);
    CarriedNight night =
        new CarriedNight(
            TakenOver.basis(inputs),
            TakenOver.byVehicle(inputs.digests()),
            inputs.settings().asOf().toString(),
            fleet.sections().vehicles(),
            closedFiles,
            buckets,
            briefsFrom,
            tests(),
            registers());
    night.write(inputs.store(), name);
    return night.folders(name);
  }

  private List<String> tests() {
    List<String> tests =
        new ArrayList<>(fleet.stored().map(night -> night.night().tests()).orElse(List.of()));
    tests.add(name + "-tests");
    SectionFiles.create(inputs.store().carriedFolder(name + "-tests")).write(fleet.newTests());
    return tests;
  }

  private String registers() {
    if (fleet.newRegisters().isEmpty()) {
      return fleet.stored().orElseThrow().night().registerFolder();
    }
    String folder = name + "-registers";
    SectionFiles.create(inputs.store().carriedFolder(folder)).write(fleet.newRegisters().get());
    return folder;
  }
}
