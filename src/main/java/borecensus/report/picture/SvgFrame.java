package borecensus.report.picture;

/**
 * The outer element of a picture, with a name and a description for those who do not see it.
 *
 * @param styleClass of the element
 */
record SvgFrame(String styleClass, int width, int height) {

  String around(String id, String title, String description, String body) {
    return "<svg class=\""
        + styleClass
        + "\" viewBox=\"0 0 "
        + width
        + ' '
        + height
        + "\" width=\""
        + width
        + "\" height=\""
        + height
        + "\" role=\"img\" aria-labelledby=\""
        + id
        + "-t "
        + id
        + "-d\"><title id=\""
        + id
        + "-t\">"
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
