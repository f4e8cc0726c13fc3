package borecensus.report.picture;

import java.awt.Shape;
import java.awt.geom.Path2D;

/** The signs of single values; they differ in shape, so that colour is not needed. */
public enum Sign {
  DIAMOND(4, 2.6),
  SQUARE(4, 3),
  TRIANGLE(3, 4.2),
  OCTAGON(8, 3);

  private final int corners;
  private final double radius;

  Sign(int corners, double radius) {
    this.corners = corners;
    this.radius = radius;
  }

  Shape shape() {
    double turn = this == SQUARE ? Math.PI / 4 : this == OCTAGON ? Math.PI / 8 : 0;
    Path2D path = new Path2D.Double();
    for (int k = 0; k < corners; k++) {
      double angle = turn - Math.PI / 2 + 2 * Math.PI * k / corners;
      double x = radius * Math.cos(angle);
      double y = radius * Math.sin(angle);
      if (k == 0) {
        path.moveTo(x, y);
      } else {
        path.lineTo(x, y);
      }
    }
    path.closePath();
    return path;
  }
}
