package borecensus.printing;

/**
 * The check character of ISO 7064 MOD 37,36 over digits and capital letters.
 *
 * <p>Source: ISO/IEC 7064:2003, hybrid systems, pure recursive method: with M = 36 and the values 0
 * to 35 for {@code 0} to {@code 9} and {@code A} to {@code Z},
 *
 * <pre>
 *   P(1) = M;  S(j) = P(j) + a(j);  P(j+1) = 2 x (S(j) mod M, or M when that is 0)  mod (M + 1)
 * </pre>
 *
 * and the last character makes S congruent to 1 modulo M. It tells every single wrong character and
 * nearly every exchange of two neighbours.
 */
final class CheckCharacter {
  private static final String ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
  private static final int MODULUS = ALPHABET.length();

  private CheckCharacter() {}

  /**
   * The character to put behind the text.
   *
   * @param text digits and capital letters; hyphens are passed over
   * @throws IllegalArgumentException when any other character is in it
   */
  static char of(String text) {
    return ALPHABET.charAt(Math.floorMod(1 - product(text), MODULUS));
  }

  /** Whether the text's last character is the check of those before it. */
  static boolean ends(String text) {
    return !text.isEmpty() && of(text.substring(0, text.length() - 1)) == lastOf(text);
  }

  private static char lastOf(String text) {
    return text.charAt(text.length() - 1);
  }

  private static int product(String text) {
    int product = MODULUS;
    for (char character : text.toCharArray()) {
      if (character == '-') {
        continue;
      }
      int value = ALPHABET.indexOf(character);
      if (value < 0) {
        throw new IllegalArgumentException("'" + character + "' is no digit or capital letter");
      }
      int sum = (product + value) % MODULUS;
      product = 2 * (sum == 0 ? MODULUS : sum) % (MODULUS + 1);
    }
    return product;
  }
}
