package borecensus.query;

import java.io.IOException;
import java.io.Writer;
import java.util.ArrayList;
import java.util.List;

/**
 * Aligned text for a person. The first {@value #LOOK_AHEAD} rows set the widths; later cells that
 * are wider push their line out rather than being cut. Control characters are shown as a space, so
 * that text from a sheet cannot steer the terminal.
 */
final class TextRows implements RowWriter {
  static final int LOOK_AHEAD = 1000;

  private final Writer out;
  private final List<List<String>> waiting = new ArrayList<>();
  private int[] widths = new int[0];
  private boolean[] rightAligned = new boolean[0];
  private boolean started;

  TextRows(Writer out) {
    this.out = out;
  }

  @Override
  public void begin(List<String> columns) {
    widths = new int[columns.size()];
    rightAligned = new boolean[columns.size()];
    hold(columns.stream().map(TextRows::visible).toList());
  }

  @Override
  public void row(List<Object> values) throws IOException {
    for (int i = 0; i < values.size(); i++) {
      rightAligned[i] |= values.get(i) instanceof Number;
    }
    List<String> cells = values.stream().map(value -> visible(CellText.of(value))).toList();
    if (started) {
      write(cells);
    } else {
      hold(cells);
      if (waiting.size() > LOOK_AHEAD) {
        release();
      }
    }
  }

  @Override
  public void end() throws IOException {
    release();
    out.flush();
  }

  private void hold(List<String> cells) {
    for (int i = 0; i < cells.size(); i++) {
      widths[i] = Math.max(widths[i], length(cells.get(i)));
    }
    waiting.add(cells);
  }

  private void release() throws IOException {
    if (started) {
      return;
    }
    started = true;
    write(waiting.get(0));
    List<String> rule = new ArrayList<>();
    for (int width : widths) {
      rule.add("-".repeat(width));
    }
    write(rule);
    for (List<String> cells : waiting.subList(1, waiting.size())) {
      write(cells);
    }
    waiting.clear();
  }

  private void write(List<String> cells) throws IOException {
    StringBuilder line = new StringBuilder();
    for (int i = 0; i < cells.size(); i++) {
      String gap = " ".repeat(Math.max(0, widths[i] - length(cells.get(i))));
      line.append(i == 0 ? "" : "  ");
      line.append(rightAligned[i] ? gap + cells.get(i) : cells.get(i) + gap);
    }
    out.append(line.toString().stripTrailing()).append('\n');
  }

  private static int length(String cell) {
    return cell.codePointCount(0, cell.length());
  }

  private static String visible(String text) {
    return text.replaceAll("\\p{Cntrl}", " ");
  }
}
