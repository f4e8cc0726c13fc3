package borecensus.packed;

import borecensus.domain.AmbientSource;
import borecensus.domain.CompressionTest;
import borecensus.domain.Doubt;
import borecensus.domain.EngineHistory;
import borecensus.domain.Finding;
import borecensus.domain.SheetKind;
import java.util.ArrayList;
import java.util.List;

/**
 * An engine's history as bytes: about a kilobyte for five tests of eight cylinders, read in a few
 * microseconds. Every component is kept to the last bit; ids that come with each test are written
 * once. Bytes of another version of the software mean nothing: they live for one night.
 */
public final class HistoryBytes {
  private static final SheetKind[] KINDS = SheetKind.values();
  private static final AmbientSource[] SOURCES = AmbientSource.values();
  private static final Doubt[] DOUBTS = Doubt.values();

  private HistoryBytes() {}

  /** A history as bytes. */
  public static byte[] write(EngineHistory history) {
    ByteWriter out = new ByteWriter();
    WordWriter words = new WordWriter(out);
    words.write(history.vehicleId());
    words.write(history.engineId());
    words.write(history.familyId());
    words.write(history.homeSiteId());
    out.count(history.originalEngine() ? 1 : 0);
    out.count(history.tests().size());
    for (CompressionTest test : history.tests()) {
      write(test, out, words);
    }
    out.count(history.findings().size());
    history.findings().forEach(finding -> FindingBytes.write(finding, out));
    return out.toBytes();
  }

  /** The history that {@link #write} was given. */
  public static EngineHistory read(byte[] bytes) {
    ByteReader in = new ByteReader(bytes);
    WordReader words = new WordReader(in);
    String vehicleId = words.read();
    String engineId = words.read();
    String familyId = words.read();
    String homeSiteId = words.read();
    boolean originalEngine = in.count() == 1;
    List<CompressionTest> tests = new ArrayList<>();
    for (long left = in.count(); left > 0; left--) {
      tests.add(readTest(in, words));
    }
    List<Finding> findings = new ArrayList<>();
    for (long left = in.count(); left > 0; left--) {
      findings.add(FindingBytes.read(in, vehicleId));
    }
    return new EngineHistory(
        vehicleId, engineId, familyId, homeSiteId, originalEngine, tests, findings);
  }

  private static void write(CompressionTest test, ByteWriter out, WordWriter words) {
    out.text(test.testId());
    words.write(test.engineId());
    out.time(test.testedAt());
    out.real(test.distanceKm());
    out.real(test.engineHours());
    words.write(test.siteId());
    words.write(test.gaugeId());
    out.word(test.kind());
    out.real(test.ambientHpa());
    out.word(test.ambientSource());
    out.reals(test.gaugeKpa());
    out.reals(test.referenceKpa());
    out.reals(test.firstReferenceKpa());
    out.real(test.engineTempC());
    out.real(test.crankingRpm());
    out.count(test.doubts().size());
    for (Doubt doubt : test.doubts()) {
      out.word(doubt);
    }
    words.write(test.sourceFile());
    out.whole(test.rowNumber());
  }

  private static CompressionTest readTest(ByteReader in, WordReader words) {
    return new CompressionTest(
        in.text(),
        words.read(),
        in.time(),
        in.real(),
        in.real(),
        words.read(),
        words.read(),
        in.word(KINDS),
        in.real(),
        in.word(SOURCES),
        in.reals(),
        in.reals(),
        in.reals(),
        in.real(),
        in.real(),
        doubts(in),
        words.read(),
        in.whole());
  }

  private static List<Doubt> doubts(ByteReader in) {
    long left = in.count();
    if (left == 0) {
      return List.of();
    }
    List<Doubt> doubts = new ArrayList<>();
    for (; left > 0; left--) {
      doubts.add(in.word(DOUBTS));
    }
    return doubts;
  }
}
