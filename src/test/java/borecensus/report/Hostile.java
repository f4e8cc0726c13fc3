package borecensus.report;

import java.util.stream.Stream;

/** Names that a sheet or a register may hold and that must stay text. */
final class Hostile {
  private Hostile() {}

  static Stream<String> names() {
    return Stream.of(
        "<script>alert(1)</script>",
        "\"><img src=x onerror=alert(1)>",
        "' onmouseover='alert(1)",
        "=cmd|' /C calc'!A0",
        "{{advice}}",
        "{{{style}}}",
        "</style><style>*{display:none}</style>",
        "</svg></title><b>",
        "<!-- ",
        "&lt;b&gt;",
        "../../../etc/passwd",
        "javascript:alert(1)");
  }
}
