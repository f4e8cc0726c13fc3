package borecensus.benchmark;

import borecensus.night.NightProgress;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;

/** The process of one run: {@code PART STORE FLEET THREADS}; figures go to standard output. */
public final class BenchmarkPart {
  private BenchmarkPart() {}

  public static void main(String[] arguments) throws SQLException {
    Path store = Path.of(arguments[1]);
    Path second = Path.of(arguments[2]);
    int threads = Integer.parseInt(arguments[3]);
    for (Figure figure : figures(arguments[0], store, second, threads)) {
      System.out.println(figure.line());
    }
    // Libraries may leave threads behind; nothing is waited for.
    System.exit(0);
  }

  private static List<Figure> figures(String part, Path store, Path second, int threads)
      throws SQLException {
    return switch (part) {
      case "relational" -> MeasuredRelational.run(RelationalInput.of(store, second), threads);
      case "size" -> SnapshotSize.of(store, second);
      case "compare" -> SnapshotComparison.run(store, second);
      default -> MeasuredNight.run(part, second, store, threads, new Messages());
    };
  }

  private static final class Messages implements NightProgress {
    private String step = "";

    @Override
    public void begins(String newStep) {
      step = newStep;
    }

    @Override
    public void ends(String outcome) {
      System.err.println("  " + step + ": " + outcome);
    }
  }
}
