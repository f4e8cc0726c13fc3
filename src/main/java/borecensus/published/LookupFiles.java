package borecensus.published;

import com.fasterxml.jackson.core.JsonEncoding;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;

/**
 * The lookup folder of a snapshot.
 *
 * <pre>
 *   lookup/model.json.gz               format, layout in words, and the model
 *   lookup/vehicles/bucket=N/vehicles.gz  vehicles with their registers and sheets, as bytes
 *   lookup/vehicles/bucket=N/news.gz      the same of vehicles with news since then, where there are any
 * </pre>
 *
 * Which bucket a vehicle stands in, and how: {@link VehicleBuckets}.
 */
public final class LookupFiles {
  /**
   * To be raised when a number changes its meaning, or the bytes of a vehicle their order, while
   * the layout stays the same.
   */
  private static final int FORMAT = 2;

  private static final int BUFFER_BYTES = 1 << 16;
  private static final RecordJson<PublishedModel> MODEL = RecordJson.of(PublishedModel.class);

  /** Vehicles stand as bytes; which ones follows from the same records. */
  private static final RecordJson<VehicleDossier> VEHICLE = RecordJson.of(VehicleDossier.class);

  private final Path folder;

  /** The lookup folder of the snapshot in this folder. */
  public LookupFiles(Path snapshot) {
    this.folder = snapshot.resolve("lookup");
  }

  /** Where the buckets of vehicles stand. */
  public Path vehicles() {
    return folder.resolve("vehicles");
  }

  /** The folder of a bucket of vehicles. */
  public Path bucket(int number) {
    return vehicles().resolve("bucket=" + number);
  }

  private Path modelFile() {
    return folder.resolve("model.json.gz");
  }

  /** Writes the model. */
  public void write(PublishedModel model) throws IOException {
    Files.createDirectories(folder);
    try (OutputStream file = new GZIPOutputStream(Files.newOutputStream(modelFile()));
        JsonGenerator out = RecordJson.FACTORY.createGenerator(file, JsonEncoding.UTF8)) {
      out.writeStartObject();
      out.writeNumberField("format", FORMAT);
      out.writeArrayFieldStart("layout");
      for (String line : layout()) {
        out.writeString(line);
      }
      out.writeEndArray();
      out.writeFieldName("model");
      MODEL.write(out, model);
      out.writeEndObject();
    }
  }

  private static List<String> layout() {
    List<String> layout = new ArrayList<>(MODEL.layout());
    layout.addAll(VEHICLE.layout());
    return layout;
  }

  /**
   * Reads the model.
   *
   * @throws LookupException when the snapshot has none, or one of another version
   */
  public PublishedModel model() throws LookupException {
    if (!Files.isRegularFile(modelFile())) {
      throw otherVersion("carries nothing to check a sheet with");
    }
    try (InputStream file = new GZIPInputStream(Files.newInputStream(modelFile()), BUFFER_BYTES);
        JsonParser in = RecordJson.FACTORY.createParser(file)) {
      in.nextToken();
      in.nextToken();
      if (in.nextIntValue(0) != FORMAT || !layout().equals(layout(in))) {
        throw otherVersion("was published by another version of the software");
      }
      in.nextToken();
      in.nextToken();
      return MODEL.read(in);
    } catch (IOException broken) {
      throw new LookupException("the file " + modelFile() + " cannot be read: " + broken, broken);
    }
  }

  private LookupException otherVersion(String what) {
    return new LookupException(
        "the snapshot "
            + folder.getParent().getFileName()
            + " "
            + what
            + "; run jobs/nightly once");
  }

  private static List<String> layout(JsonParser in) throws IOException {
    List<String> layout = new ArrayList<>();
    in.nextToken();
    if (in.nextToken() == JsonToken.START_ARRAY) {
      while (in.nextToken() == JsonToken.VALUE_STRING) {
        layout.add(in.getText());
      }
    }
    return layout;
  }

  /**
   * The dossier of a vehicle; empty when it is not registered.
   *
   * @param buckets as the model says
   * @throws LookupException when it cannot be read
   */
  public Optional<VehicleDossier> dossier(String vehicleId, int buckets) throws LookupException {
    Path bucket = bucket(VehicleBuckets.bucketOf(vehicleId, buckets));
    try {
      return VehicleBuckets.find(vehicleId, bucket);
    } catch (IOException broken) {
      throw new LookupException("the folder " + bucket + " cannot be read: " + broken, broken);
    }
  }
}
