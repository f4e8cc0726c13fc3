package borecensus.registers;

import borecensus.domain.FamilyCost;
import borecensus.domain.FleetCosts;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Reads costs.csv. Unlike the other registers it is taken whole or not at all: a cost that is left
 * out would change the order of the work list without a word.
 */
public final class CostRegister {
  private static final RegisterFile FILE = RegisterFile.COSTS;

  private CostRegister() {}

  /**
   * The fleet's costs; none when there is no such file.
   *
   * @throws FleetInputException when a row cannot be used, or a family is left without costs
   */
  public static FleetCosts load(FleetFolder folder, Registers registers) {
    try {
      Optional<InputStream> bytes = folder.open(FILE.fileName());
      return bytes.isEmpty() ? FleetCosts.NONE : read(bytes.get(), registers);
    } catch (IOException unreadable) {
      throw unusable(String.valueOf(unreadable.getMessage()));
    }
  }

  private static FleetCosts read(InputStream bytes, Registers registers) throws IOException {
    TreeMap<String, FamilyCost> byFamily = new TreeMap<>();
    List<RegisterProblem> problems = new ArrayList<>();
    RegisterReader.read(FILE, bytes, row -> cost(row, byFamily), familyId -> {}, problems::add);
    if (!problems.isEmpty()) {
      RegisterProblem first = problems.get(0);
      throw unusable(
          "row %d, %s '%s': %s"
              .formatted(first.rowNumber(), first.column(), first.value(), first.message()));
    }
    FleetCosts costs = new FleetCosts(byFamily);
    costs
        .firstWithout(registers.families())
        .ifPresent(
            familyId -> {
              throw unusable(
                  "it has no row for family '%s' and none for '%s'"
                      .formatted(familyId, FleetCosts.ANY));
            });
    return costs;
  }

  private static Optional<String> cost(RegisterRow row, TreeMap<String, FamilyCost> byFamily) {
    String familyId = row.text("family_id");
    double failure = row.number("failure_cost");
    double inspection = row.number("inspection_cost");
    if (familyId.isEmpty() || byFamily.containsKey(familyId)) {
      row.problem("family_id", "every row needs a family_id of its own, or " + FleetCosts.ANY);
    } else if (!(failure > 0) || Double.isInfinite(failure)) {
      row.problem("failure_cost", "it must be a number above zero");
    } else if (!(inspection > 0) || Double.isInfinite(inspection)) {
      row.problem("inspection_cost", "it must be a number above zero");
    } else {
      byFamily.put(familyId, new FamilyCost(failure, inspection));
    }
    return Optional.empty();
  }

  private static FleetInputException unusable(String why) {
    return new FleetInputException(FILE.fileName() + " cannot be used: " + why);
  }
}
