package borecensus.printing;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.HashSet;
import java.util.Locale;
import java.util.Set;

/**
 * Numbers for sheets that are still to be filled in, such as {@code S260331-K7Q4-M2XP}: the date of
 * the snapshot, seven characters that stand for the vehicle and its engine, and the check character
 * of ISO 7064 MOD 37,36 over all before it.
 *
 * <p>The same snapshot, vehicle and engine give the same number again, so that a page printed twice
 * is still one test. A number that is taken already is passed over. No letter in the part behind
 * the date can be mistaken for a digit (I, L, O and U are left out), the check included.
 */
final class TestIds {
  private static final String LEGIBLE = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  private static final int BITS_PER_CHARACTER = 5;
  private static final int CHARACTERS = 7;
  private static final int GROUP = 4;
  private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("uuMMdd", Locale.ROOT);

  private final LocalDate asOf;
  private final Set<String> taken;

  /**
   * @param asOf the date of the snapshot
   * @param taken the numbers that stand on accepted sheets
   */
  TestIds(LocalDate asOf, Set<String> taken) {
    this.asOf = asOf;
    this.taken = new HashSet<>(taken);
  }

  /** How the numbers of this date begin. */
  static String prefix(LocalDate asOf) {
    return "S" + DATE.format(asOf) + "-";
  }

  /** A number for one test of this engine; never the same for two calls. */
  String next(String vehicleId, String engineId) {
    for (int round = 0; ; round++) {
      String id = candidate(vehicleId, engineId, round);
      if (LEGIBLE.indexOf(id.charAt(id.length() - 1)) >= 0 && taken.add(id)) {
        return id;
      }
    }
  }

  private String candidate(String vehicleId, String engineId, int round) {
    long bits = ByteBuffer.wrap(digest(vehicleId, engineId, round)).getLong();
    StringBuilder id = new StringBuilder(prefix(asOf));
    for (int i = 0; i < CHARACTERS; i++) {
      if (i == GROUP) {
        id.append('-');
      }
      id.append(LEGIBLE.charAt((int) (bits >>> (i * BITS_PER_CHARACTER)) & (LEGIBLE.length() - 1)));
    }
    return id.append(CheckCharacter.of(id.toString())).toString();
  }

  private byte[] digest(String vehicleId, String engineId, int round) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      for (String part : new String[] {asOf.toString(), vehicleId, engineId, "" + round}) {
        byte[] bytes = part.getBytes(StandardCharsets.UTF_8);
        // With its length before it, no part can run into the next.
        digest.update(ByteBuffer.allocate(Integer.BYTES).putInt(bytes.length).array());
        digest.update(bytes);
      }
      return digest.digest();
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
