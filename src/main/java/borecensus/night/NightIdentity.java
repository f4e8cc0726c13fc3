package borecensus.night;

import borecensus.norms.Priors;
import borecensus.registers.RegisterFile;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;

/**
 * What a night is made from, as digests: nights of equal inputs and settings have equal run ids,
 * and publish equal tables.
 *
 * @param runId date and digest of everything below
 * @param configDigest digest of settings and starting priors alone
 */
record NightIdentity(String runId, String configDigest) {
  private static final int SHORT = 12;

  static NightIdentity of(
      NightSettings settings, RegisterDigests registers, List<LedgerStage.TakenIn> ledger) {
    String config = configDigest(settings);
    MessageDigest digest = FleetFiles.sha256();
    add(digest, settings.asOf().toString());
    add(digest, config);
    add(digest, SoftwareVersion.get());
    for (RegisterFile register : RegisterFile.values()) {
      add(digest, registers.of(register));
    }
    for (LedgerStage.TakenIn file : ledger) {
      add(digest, file.sourceFile() + file.contentDigest());
    }
    String hex = HexFormat.of().formatHex(digest.digest()).substring(0, SHORT);
    return new NightIdentity(settings.asOf() + "-" + hex, config);
  }

  /** A digest of settings and starting priors. */
  static String configDigest(NightSettings settings) {
    MessageDigest digest = FleetFiles.sha256();
    add(digest, "max_false_share=" + settings.maxFalseShare());
    add(digest, "large_fleet_from=" + settings.largeFleetFrom());
    try (InputStream priors = Priors.class.getResourceAsStream(Priors.RESOURCE)) {
      digest.update(priors.readAllBytes());
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible);
    }
    return HexFormat.of().formatHex(digest.digest()).substring(0, SHORT);
  }

  private static void add(MessageDigest digest, String text) {
    digest.update(text.getBytes(StandardCharsets.UTF_8));
    digest.update((byte) 0);
  }
}
