package borecensus.report.picture;

import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.PathIterator;

/** Shapes and numbers as SVG writes them, to a tenth of a unit and in few characters. */
final class PathText {
  private PathText() {}

  private static final int TENTHS = 10;

  /** The outline as path data (SVG 2, chapter 9); empty when there is nothing to see. */
  static String of(Shape shape, AffineTransform transform) {
    StringBuilder path = new StringBuilder();
    double[] at = new double[6];
    long lastX = 0;
    long lastY = 0;
    for (PathIterator steps = shape.getPathIterator(transform); !steps.isDone(); steps.next()) {
      int step = steps.currentSegment(at);
      if (step == PathIterator.SEG_CLOSE) {
        path.append('Z');
        continue;
      }
      int numbers = numbers(step);
      long[] tenths = new long[numbers];
      for (int i = 0; i < numbers; i++) {
        tenths[i] = Math.round(at[i] * TENTHS);
      }
      path.append(letter(step));
      for (int i = 0; i < numbers; i++) {
        boolean first = i == 0;
        // Moves are absolute; everything else counts from the point before, which is shorter.
        long from = step == PathIterator.SEG_MOVETO ? 0 : i % 2 == 0 ? lastX : lastY;
        append(path, tenths[i] - from, first);
      }
      lastX = tenths[numbers - 2];
      lastY = tenths[numbers - 1];
    }
    return path.toString();
  }

  private static int numbers(int step) {
    return switch (step) {
      case PathIterator.SEG_QUADTO -> 4;
      case PathIterator.SEG_CUBICTO -> 6;
      default -> 2;
    };
  }

  private static char letter(int step) {
    return switch (step) {
      case PathIterator.SEG_MOVETO -> 'M';
      case PathIterator.SEG_LINETO -> 'l';
      case PathIterator.SEG_QUADTO -> 'q';
      default -> 'c';
    };
  }

  private static void append(StringBuilder path, long tenths, boolean first) {
    if (!first && tenths >= 0) {
      path.append(' ');
    }
    appendPlain(path, tenths);
  }

  private static void appendPlain(StringBuilder text, long tenths) {
    long whole = tenths / TENTHS;
    long rest = Math.abs(tenths % TENTHS);
    if (tenths < 0 && whole == 0) {
      text.append('-');
    }
    text.append(whole);
    if (rest != 0) {
      text.append('.').append(rest);
    }
  }

  /** A number to a tenth, without an idle zero. */
  static String number(double value) {
    StringBuilder text = new StringBuilder();
    appendPlain(text, Math.round(value * TENTHS));
    return text.toString();
  }

  /** Text as an SVG element holds it. */
  static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;")
        .replace("'", "&#39;");
  }
}
