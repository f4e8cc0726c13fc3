package borecensus.domain;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/** The constants of an enum by the codes that files use for them. */
final class EnumCodes<E> {
  private final Map<String, Optional<E>> byCode = new HashMap<>();

  EnumCodes(E[] constants, Function<E, String> code) {
    for (E constant : constants) {
      byCode.put(code.apply(constant), Optional.of(constant));
    }
  }

  /** The constant of a code in any case and with blanks around it; empty when there is none. */
  Optional<E> find(String text) {
    Optional<E> asItStands = byCode.get(text);
    return asItStands != null
        ? asItStands
        : byCode.getOrDefault(text.strip().toLowerCase(Locale.ROOT), Optional.empty());
  }
}
