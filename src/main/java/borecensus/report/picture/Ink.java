package borecensus.report.picture;

import java.awt.Color;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;

/**
 * What a stroke or an area stands for. The chart library carries paints, the page carries classes:
 * each ink has a colour of its own that stands for its class and is never seen.
 */
public enum Ink {
  /** Paper, grid and axis. */
  PAPER,
  GRID,
  AXIS,
  LABEL,
  /** Centiles of the healthy, outermost first. */
  BAND_98,
  BAND_90,
  BAND_50,
  MEDIAN,
  LIMIT,
  /** An engine among others. */
  PEER,
  BAR,
  /** The engine or the cylinder that is spoken of. */
  STEADY,
  SUSPECT,
  /** A reading that is not believed. */
  DOUBTED;

  private static final Map<Color, Ink> BY_COLOR = new HashMap<>();

  static {
    for (Ink ink : values()) {
      BY_COLOR.put(ink.color(), ink);
    }
  }

  /** The class in the page's style. */
  String styleClass() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The colour that stands for it on the way through the chart library. */
  Color color() {
    return new Color(ordinal(), 1, 2);
  }

  /**
   * The ink behind a paint.
   *
   * @throws IllegalArgumentException for a paint that is none: a picture must not hold colours
   */
  static Ink of(Object paint) {
    Ink ink = paint instanceof Color ? BY_COLOR.get(paint) : null;
    if (ink == null) {
      throw new IllegalArgumentException("the picture holds a paint that is no ink: " + paint);
    }
    return ink;
  }
}
