package borecensus.printing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CheckCharacterTest {
  private static final String ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";

  /**
   * Published identifiers that end in this check: the Global Release Identifier standard's example
   * A1-2425G-ABC1234002-M, and the root of an International Standard Audiovisual Number (ISO
   * 15706), 0000-0000-C36D-002B-K.
   */
  @ParameterizedTest
  @CsvSource({"A1-2425G-ABC1234002-,M", "A12425GABC1234002,M", "0000-0000-C36D-002B-,K"})
  void publishedIdentifiersHaveTheCheckTheyArePrintedWith(String text, char check) {
    assertEquals(check, CheckCharacter.of(text));
    assertTrue(CheckCharacter.ends(text + check));
  }

  @Test
  void everySingleWrongCharacterIsTold() {
    String sound = "S260331-K7Q4-M2X" + CheckCharacter.of("S260331-K7Q4-M2X");
    for (int i = 0; i < sound.length(); i++) {
      for (char wrong : ALPHABET.toCharArray()) {
        if (sound.charAt(i) != '-' && sound.charAt(i) != wrong) {
          String spoilt = sound.substring(0, i) + wrong + sound.substring(i + 1);
          assertFalse(CheckCharacter.ends(spoilt), spoilt);
        }
      }
    }
  }

  @Test
  void whatIsNoDigitOrCapitalIsRefusedByName() {
    IllegalArgumentException refused =
        assertThrows(IllegalArgumentException.class, () -> CheckCharacter.of("ab"));
    assertEquals("'a' is no digit or capital letter", refused.getMessage());
  }
}
