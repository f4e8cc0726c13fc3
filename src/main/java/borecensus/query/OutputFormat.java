package borecensus.query;

import java.io.Writer;
import java.util.Locale;
import java.util.function.Function;

/** How rows are written. */
public enum OutputFormat {
  CSV(CsvRows::new),
  TABLE(TextRows::new),
  JSON(JsonRows::new);

  private final transient Function<Writer, RowWriter> opener;

  OutputFormat(Function<Writer, RowWriter> opener) {
    this.opener = opener;
  }

  RowWriter writingTo(Writer out) {
    return opener.apply(out);
  }

  /** The word used on the command line. */
  @Override
  public String toString() {
    return name().toLowerCase(Locale.ROOT);
  }
}
