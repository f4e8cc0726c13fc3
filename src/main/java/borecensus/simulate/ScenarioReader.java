package borecensus.simulate;

import com.fasterxml.jackson.core.JacksonException;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonDeserializer;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.deser.DeserializationProblemHandler;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Reads scenario files and names everything that is wrong with one, all at once. */
public final class ScenarioReader {
  private ScenarioReader() {}

  /**
   * Reads and checks a scenario.
   *
   * @throws IOException when the file cannot be read
   * @throws InvalidScenarioException when it is not a scenario that can be simulated
   */
  public static Scenario read(Path file) throws IOException, InvalidScenarioException {
    return parse(Files.readString(file, StandardCharsets.UTF_8));
  }

  /**
   * Reads and checks the text of a scenario.
   *
   * @throws InvalidScenarioException when it is not a scenario that can be simulated
   */
  public static Scenario parse(String json) throws InvalidScenarioException {
    Collector collector = new Collector();
    Scenario scenario;
    try {
      scenario = mapper(collector).readValue(json, Scenario.class);
    } catch (JacksonException e) {
      throw new InvalidScenarioException(List.of(syntaxProblem(e)));
    }
    List<String> problems = new ArrayList<>(collector.problems);
    if (scenario == null) {
      problems.add("the file is empty");
    } else {
      problems.addAll(ScenarioCheck.problems(scenario));
    }
    if (!problems.isEmpty()) {
      throw new InvalidScenarioException(problems);
    }
    return scenario;
  }

  private static String syntaxProblem(JacksonException e) {
    String where =
        e.getLocation() == null
            ? ""
            : "line " + e.getLocation().getLineNr() + ", column " + e.getLocation().getColumnNr();
    return where + ": " + e.getOriginalMessage();
  }

  private static JsonMapper mapper(Collector collector) {
    return JsonMapper.builder()
        .addModule(new JavaTimeModule())
        .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
        .enable(MapperFeature.ACCEPT_CASE_INSENSITIVE_ENUMS)
        .enable(DeserializationFeature.FAIL_ON_NUMBERS_FOR_ENUMS)
        .addHandler(collector)
        .build();
  }

  /** Notes a problem and reads on, so that one pass finds them all. */
  private static final class Collector extends DeserializationProblemHandler {
    private final List<String> problems = new ArrayList<>();

    @Override
    public boolean handleUnknownProperty(
        DeserializationContext context,
        JsonParser parser,
        JsonDeserializer<?> deserializer,
        Object beanOrClass,
        String propertyName)
        throws IOException {
      problems.add(at(parser) + "'" + propertyName + "' is not a setting");
      parser.skipChildren();
      return true;
    }

    @Override
    public Object handleWeirdStringValue(
        DeserializationContext context, Class<?> targetType, String value, String failure) {
      problems.add(
          at(context.getParser()) + "'" + value + "' cannot be read" + choices(targetType));
      return null;
    }

    private static String choices(Class<?> targetType) {
      if (!targetType.isEnum()) {
        return targetType == LocalDate.class ? " as year-month-day" : " as a number";
      }
      List<String> words = new ArrayList<>();
      for (Object constant : targetType.getEnumConstants()) {
        words.add(constant.toString().toLowerCase(Locale.ROOT));
      }
      return "; write one of " + String.join(", ", words);
    }

    private static String at(JsonParser parser) {
      return "line " + parser.currentLocation().getLineNr() + ": ";
    }
  }
}
