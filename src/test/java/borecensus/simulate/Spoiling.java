package borecensus.simulate;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** Replaces every cell of a JSON document in turn. */
final class Spoiling {
  private Spoiling() {}

  /** One document per node of the tree, with that node replaced. */
  static List<String> everyCell(String json, String replacement) throws IOException {
    ObjectMapper mapper = new ObjectMapper();
    JsonNode root = mapper.readTree(json);
    List<String> documents = new ArrayList<>();
    spoil(root, root, mapper.readTree(replacement), documents);
    return documents;
  }

  private static void spoil(
      JsonNode root, JsonNode node, JsonNode replacement, List<String> documents) {
    if (node instanceof ObjectNode object) {
      List<String> names = new ArrayList<>();
      object.fieldNames().forEachRemaining(names::add);
      for (String name : names) {
        JsonNode before = object.get(name);
        spoil(root, before, replacement, documents);
        object.set(name, replacement);
        documents.add(root.toString());
        object.set(name, before);
      }
    } else if (node instanceof ArrayNode array) {
      for (int i = 0; i < array.size(); i++) {
        JsonNode before = array.get(i);
        spoil(root, before, replacement, documents);
        array.set(i, replacement);
        documents.add(root.toString());
        array.set(i, before);
      }
    }
  }
}
