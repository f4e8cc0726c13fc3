package borecensus.domain;

import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;

/** Finds the constant of an enum by the code that files use for it. */
final class EnumCodes {
  private EnumCodes() {}

  static <E> Optional<E> find(E[] constants, Function<E, String> code, String text) {
    for (E constant : constants) {
      if (code.apply(constant).equals(text)) {
        return Optional.of(constant);
      }
    }
    String wanted = text.strip().toLowerCase(Locale.ROOT);
    for (E constant : constants) {
      if (code.apply(constant).equals(wanted)) {
        return Optional.of(constant);
      }
    }
    return Optional.empty();
  }
}
