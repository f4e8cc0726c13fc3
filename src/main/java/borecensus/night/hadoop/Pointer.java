package borecensus.night.hadoop;

import java.util.Locale;
import java.util.Map;
import org.apache.hadoop.conf.Configuration;

/** How a small file is put in place of another in one step. */
enum Pointer {
  /** Written aside, then renamed over the old one: the rename is one step. */
  RENAME,
  /** Written under its own name: the file shows its new content once it is closed, not before. */
  PUT;

  /** Setting by which a file system that is not listed here is told to be one or the other. */
  static final String SETTING = "borecensus.pointer.";

  private static final Map<String, Pointer> KNOWN =
      Map.of("hdfs", RENAME, "viewfs", RENAME, "s3a", PUT, "gs", PUT);

  /**
   * The way of a file system.
   *
   * @throws UnusableFolderException when nobody has said how it does this
   */
  static Pointer of(String scheme, Configuration settings) {
    String told = settings.get(SETTING + scheme, "").toUpperCase(Locale.ROOT);
    for (Pointer pointer : values()) {
      if (pointer.name().equals(told)) {
        return pointer;
      }
    }
    if (told.isEmpty() && KNOWN.containsKey(scheme)) {
      return KNOWN.get(scheme);
    }
    throw new UnusableFolderException(
        "it is not known how %s:// replaces a file in one step; tell by --conf spark.hadoop.%s%s="
                .formatted(scheme, SETTING, scheme)
            + "rename or =put (jobs/cluster/README.md says which)",
        null);
  }
}
