package borecensus.registers;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import borecensus.domain.FamilyCost;
import borecensus.domain.FleetCosts;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CostRegisterTest {
  private static final String HEADER = "family_id,failure_cost,inspection_cost\n";

  private static FleetCosts load(String costs) {
    Map<String, String> files =
        Map.of(
            "families.csv", "family_id,fuel,cylinders\nF4,petrol,4\nF6,diesel,6\n",
            "vehicles.csv", "vehicle_id,family_id\nV1,F4\n",
            "sites.csv", "site_id,elevation_m\nD1,120\n",
            "gauges.csv", "gauge_id,unit\nG1,psi\n",
            "costs.csv", costs);
    FleetFolder folder =
        name ->
            Optional.ofNullable(files.get(name))
                .filter(text -> !text.isEmpty())
                .map(text -> new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
    return CostRegister.load(folder, Registers.load(folder).registers());
  }

  @Test
  void withoutTheFileAllFamiliesWeighAlike() {
    assertEquals(FleetCosts.NONE, load(""));
    assertEquals(1, FleetCosts.NONE.weight("F4"));
    assertEquals(Optional.empty(), FleetCosts.NONE.of("F4"));
  }

  @Test
  void aFamilyHasItsOwnCostsOrThoseOfAllOthers() {
    FleetCosts costs = load(HEADER + "F6,9000,300\n*,2000,200\n");
    assertEquals(Optional.of(new FamilyCost(9000, 300)), costs.of("F6"));
    assertEquals(Optional.of(new FamilyCost(2000, 200)), costs.of("F4"));
    // 9000 / 300 = 30 is the highest ratio, 2000 / 200 = 10 a third of it.
    assertEquals(1, costs.weight("F6"), 1e-12);
    assertEquals(1.0 / 3, costs.weight("F4"), 1e-12);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "F6,dear,300;*,1,1|row 1, failure_cost 'dear': it is taken as not stated",
        "F6,-5,300;*,1,1|row 1, failure_cost '-5': it must be a number above zero",
        "*,5,0|row 1, inspection_cost '0': it must be a number above zero",
        "*,5,|row 1, inspection_cost '': it must be a number above zero",
        "*,5,1;*,6,1|row 2, family_id '*': every row needs a family_id of its own",
        "F6,5,1|it has no row for family 'F4' and none for '*'"
      })
  void whatCannotBeUsedIsNamedInOneLine(String rows, String message) {
    FleetInputException refused =
        assertThrows(
            FleetInputException.class, () -> load(HEADER + rows.replace(';', '\n') + "\n"));
    String said = refused.getMessage();
    assertEquals(
        "costs.csv cannot be used: " + message,
        said.substring(0, Math.min(said.length(), 26 + message.length())));
    assertEquals(-1, said.indexOf('\n'));
  }

  @Test
  void aMissingColumnIsNamed() {
    FleetInputException refused =
        assertThrows(FleetInputException.class, () -> load("family_id,failure_cost\n*,1\n"));
    assertEquals(
        "costs.csv cannot be used: it has no column 'inspection_cost'", refused.getMessage());
  }
}
