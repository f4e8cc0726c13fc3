package borecensus.simulate;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.function.Consumer;

/** The bundled scenarios, as they are and with changes. */
public final class Scenarios {
  public static final Path HIGHLAND_LINE = Path.of("seeds/scenarios/highland-line.json");
  public static final Path TYPICAL = Path.of("seeds/scenarios/typical-2400.json");

  private Scenarios() {}

  static Scenario highlandLine() throws IOException, InvalidScenarioException {
    return ScenarioReader.read(HIGHLAND_LINE);
  }

  static Scenario highlandLine(Consumer<ObjectNode> change)
      throws IOException, InvalidScenarioException {
    return ScenarioReader.parse(text(change));
  }

  /** The text of the demonstration scenario after a change to its tree. */
  public static String text(Consumer<ObjectNode> change) throws IOException {
    ObjectNode tree = (ObjectNode) new ObjectMapper().readTree(HIGHLAND_LINE.toFile());
    change.accept(tree);
    return tree.toPrettyString();
  }

  /** Leaves a few vehicles per family and no spoiled rows, for quick runs. */
  public static void fewVehicles(ObjectNode tree) {
    tree.get("families").forEach(family -> ((ObjectNode) family).put("vehicles", 4));
    tree.putObject("dirty_rows");
  }

  static FamilyPlan family(Scenario scenario, String id) {
    return scenario.families().stream()
        .filter(f -> f.familyId().equals(id))
        .findFirst()
        .orElseThrow();
  }
}
