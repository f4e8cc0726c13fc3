package borecensus.report;

/** Renders the morning page: the report's index. */
public final class ReportPage {
  private ReportPage() {}

  /** The page; the same data give the same text. */
  public static String render(ReportData data) {
    return new PageTemplate("report").render(ReportView.of(data));
  }
}
