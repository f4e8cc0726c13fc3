package borecensus.report.picture;

import java.util.Locale;

/**
 * The outer element of a picture, with a name and a description for those who do not see it.
 *
 * @param styleClass of the element
 */
record SvgFrame(String styleClass, int width, int height) {

  String around(String id, String title, String description, String body) {
    return String.format(
            Locale.ROOT,
            "<svg class=\"%s\" viewBox=\"0 0 %d %d\" width=\"%d\" height=\"%d\" role=\"img\""
                + " aria-labelledby=\"%s-t %s-d\"><title id=\"%s-t\">",
            styleClass,
            width,
            height,
            width,
            height,
            id,
            id,
            id)
        + PathText.escaped(title)
        + "</title><desc id=\""
        + id
        + "-d\">"
        + PathText.escaped(description)
        + "</desc>"
        + body
        + "</svg>";
  }
}
