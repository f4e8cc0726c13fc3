package borecensus.report;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Locale;

/**
 * Where the pages of a report lie, from the report's folder. A name holds what of an id is harmless
 * in every file system and every link, for people, and a digest of the whole id, so that no two ids
 * share a page and none leads out of the folder.
 */
public final class PageNames {
  private PageNames() {}

  /** Folder of the engines' pages. */
  public static final String ENGINES = "engines";

  /** Folder of the families' pages. */
  public static final String FAMILIES = "families";

  private static final int READABLE = 32;
  private static final int DIGEST = 16;

  /** The page of an engine in a vehicle. */
  public static String engine(String vehicleId, String engineId) {
    return ENGINES + "/" + file(vehicleId, vehicleId + "\u0000" + engineId);
  }

  /** The page of a family. */
  public static String family(String familyId) {
    return FAMILIES + "/" + file(familyId, familyId);
  }

  /** A page of the work list; the first is the morning page itself. */
  public static String list(int page) {
    return page == 1 ? "index.html" : "work-list-" + page + ".html";
  }

  private static String file(String shown, String whole) {
    String readable =
        shown.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-+", "");
    String kept =
        readable.substring(0, Math.min(READABLE, readable.length())).replaceAll("-+$", "");
    return (kept.isEmpty() ? "page" : kept) + "-" + digest(whole) + ".html";
  }

  private static String digest(String text) {
    try {
      byte[] all =
          MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(all).substring(0, DIGEST);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
