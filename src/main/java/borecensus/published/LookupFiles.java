package borecensus.published;

import com.fasterxml.jackson.core.JsonEncoding;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.io.JsonStringEncoder;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.zip.CRC32;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;

/**
 * The lookup folder of a snapshot.
 *
 * <pre>
 *   lookup/model.json.gz               format, layout in words, and the model
 *   lookup/vehicles/bucket=N/*.gz      one line per vehicle: its id as a JSON string, a tab, its file
 * </pre>
 *
 * A vehicle stands in the bucket that the CRC-32 of its id (UTF-8) gives, so that finding one reads
 * about a thousand lines however large the fleet is.
 */
public final class LookupFiles {
  /** To be raised when a number changes its meaning while the layout stays the same. */
  private static final int FORMAT = 1;

  private static final int VEHICLES_PER_BUCKET = 1_000;
  private static final int BUFFER_BYTES = 1 << 16;
  private static final RecordJson<PublishedModel> MODEL = RecordJson.of(PublishedModel.class);
  private static final RecordJson<VehicleDossier> DOSSIER = RecordJson.of(VehicleDossier.class);

  private final Path folder;

  /** The lookup folder of the snapshot in this folder. */
  public LookupFiles(Path snapshot) {
    this.folder = snapshot.resolve("lookup");
  }

  /** Where the buckets of vehicles stand. */
  public Path vehicles() {
    return folder.resolve("vehicles");
  }

  private Path modelFile() {
    return folder.resolve("model.json.gz");
  }

  /** Among how many buckets so many vehicles are spread. */
  public static int buckets(long vehicles) {
    return (int) Math.max(1, (vehicles + VEHICLES_PER_BUCKET - 1) / VEHICLES_PER_BUCKET);
  }

  /** The bucket of a vehicle, from 0. */
  public static int bucketOf(String vehicleId, int buckets) {
    CRC32 crc = new CRC32();
    crc.update(vehicleId.getBytes(StandardCharsets.UTF_8));
    return (int) (crc.getValue() % buckets);
  }

  /** The line of a vehicle. */
  public static String line(VehicleDossier dossier) {
    return key(dossier.file().vehicle().vehicleId()) + DOSSIER.text(dossier);
  }

  /** A line's start; a JSON string holds no tab and no line break of its own. */
  private static String key(String vehicleId) {
    return "\"" + String.valueOf(JsonStringEncoder.getInstance().quoteAsString(vehicleId)) + "\"\t";
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
    layout.addAll(DOSSIER.layout());
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
    Path bucket = vehicles().resolve("bucket=" + bucketOf(vehicleId, buckets));
    if (!Files.isDirectory(bucket)) {
      return Optional.empty();
    }
    String key = key(vehicleId);
    try (DirectoryStream<Path> files = Files.newDirectoryStream(bucket, "*.gz")) {
      for (Path file : files) {
        Optional<String> line = find(file, key);
        if (line.isPresent()) {
          return Optional.of(DOSSIER.value(line.get().substring(key.length())));
        }
      }
      return Optional.empty();
    } catch (IOException broken) {
      throw new LookupException("the folder " + bucket + " cannot be read: " + broken, broken);
    }
  }

  private static Optional<String> find(Path file, String key) throws IOException {
    try (BufferedReader lines =
        new BufferedReader(
            new InputStreamReader(
                new GZIPInputStream(Files.newInputStream(file), BUFFER_BYTES),
                StandardCharsets.UTF_8))) {
      String line = lines.readLine();
      while (line != null && !line.startsWith(key)) {
        line = lines.readLine();
      }
      return Optional.ofNullable(line);
    }
  }
}
