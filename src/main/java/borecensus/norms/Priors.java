package borecensus.norms;

import borecensus.domain.Fuel;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;

/**
 * What is believed before the fleet has spoken, by fuel.
 *
 * @param byFuel one entry for every fuel
 */
public record Priors(Map<Fuel, FuelPriors> byFuel) implements Serializable {

  /** Where the shipped priors stand on the class path. */
  public static final String RESOURCE = "/seeds/priors.csv";

  public Priors {
    byFuel = Map.copyOf(byFuel);
    for (Fuel fuel : Fuel.values()) {
      if (!byFuel.containsKey(fuel)) {
        throw new IllegalArgumentException("priors lack a row for fuel '" + fuel.code() + "'");
      }
    }
  }

  /** The shipped priors. */
  public static Priors load() {
    try (InputStream in = Priors.class.getResourceAsStream(RESOURCE);
        Reader reader = new InputStreamReader(in, StandardCharsets.UTF_8)) {
      return read(reader);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Reads priors in the form of the shipped file.
   *
   * @throws IllegalArgumentException when a column or a fuel is missing, or a value is impossible
   */
  public static Priors read(Reader reader) {
    return new Priors(PriorsFile.read(reader));
  }

  /** The priors of this fuel. */
  public FuelPriors of(Fuel fuel) {
    return byFuel.get(fuel);
  }
}
