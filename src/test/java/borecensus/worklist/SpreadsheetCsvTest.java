package borecensus.worklist;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import de.siegmar.fastcsv.reader.CsvReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class SpreadsheetCsvTest {

  private static byte[] written(List<String> header, List<List<String>> rows) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    SpreadsheetCsv.write(header, rows.iterator(), out);
    return out.toByteArray();
  }

  @Test
  void theFileStartsWithAByteOrderMarkAndEndsLinesWithCrlf() throws IOException {
    byte[] bytes = written(List.of("a", "b"), List.of(List.of("é", "say \"so\", now")));

    assertArrayEquals(new byte[] {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF}, Arrays.copyOf(bytes, 3));
    assertEquals(
        "\uFEFFa,b\r\né,\"say \"\"so\"\", now\"\r\n", new String(bytes, StandardCharsets.UTF_8));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "=1+1",
        "=cmd|' /C calc'!A0",
        "+1+1",
        "-1+1",
        "-",
        "@SUM(A1)",
        "\tx",
        "\rx",
        "\nx",
        "＝1+1",
        "＋1",
        "－1",
        "＠x",
        " =1+1",
        "\u00A0=1",
        "\u200B=1",
        "\uFEFF=1",
        "+49 170 1",
        "-1.5.2",
      })
  void whatLooksLikeAFormulaIsShownAsText(String cell) {
    assertEquals("'" + cell, SpreadsheetCsv.neutral(cell));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "-12.5",
        "+3",
        "0",
        "1e-7",
        "-1E+5",
        "V-1",
        "3;4",
        "1e5=",
        "",
        "a=b",
        "22 % lower"
      })
  void plainNumbersAndPlainTextStay(String cell) {
    assertEquals(cell, SpreadsheetCsv.neutral(cell));
  }

  @ParameterizedTest
  @CsvSource(
      value = {"a;=cmd()|a;'=cmd()", "a; @x|a;' @x", "=a;+b|'=a;'+b", "3;-4.5x|3;'-4.5x"},
      delimiter = '|')
  void aFormulaBehindAnotherSeparatorIsShownAsTextToo(String cell, String expected) {
    assertEquals(expected, SpreadsheetCsv.neutral(cell));
  }

  /** The same rule as one pattern, which is easier to read and many times slower. */
  @Test
  void anyCellIsShownAsThePatternOfTheRuleHasIt() {
    Pattern dangerous =
        Pattern.compile(
            "(^|[;\t\r\n])(?=[\\p{Z}\\p{Cf}\\p{Cc}]*[=+\\-@\uFF1D\uFF0B\uFF0D\uFF20]|[\t\r\n])");
    Pattern number = Pattern.compile("[+-]?[0-9]+(\\.[0-9]+)?([eE][+-]?[0-9]+)?");
    String[] pieces = {
      ";",
      "\t",
      "\r",
      "\n",
      "=",
      "+",
      "-",
      "@",
      "\uFF1D",
      " ",
      "\u200B",
      "\u00A0",
      "\u2028",
      "\uDB40\uDC01",
      "\u007F",
      "a",
      "7",
      ".",
      "e",
      "\u00E9",
      "\uD83D\uDE97"
    };
    Random random = new Random(3);
    for (int i = 0; i < 100_000; i++) {
      StringBuilder cell = new StringBuilder();
      for (int length = random.nextInt(7); length > 0; length--) {
        cell.append(pieces[random.nextInt(pieces.length)]);
      }
      String text = cell.toString();
      String expected =
          number.matcher(text).matches() ? text : dangerous.matcher(text).replaceAll("$1'");
      assertEquals(expected, SpreadsheetCsv.neutral(text));
    }
  }

  @Test
  void theWorkListReadsBackWithTheColumnsOfTheContract() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    WorkListCsv.write(List.of(Entries.entry("=V,1", "E-1", 12.5)).iterator(), out);

    List<List<String>> rows =
        CsvReader.builder().ofCsvRecord(out.toString(StandardCharsets.UTF_8).substring(1)).stream()
            .map(record -> record.getFields())
            .toList();

    assertEquals(
        List.of(
            "rank",
            "vehicle_id",
            "engine_id",
            "family_id",
            "priority",
            "fault_probability",
            "main_reason",
            "suspect_cylinders",
            "evidence",
            "next_step",
            "last_tested_on",
            "site_id"),
        rows.get(0).subList(0, 12));
    assertEquals(
        List.of(
            "1",
            "'=V,1",
            "E-1",
            "F",
            "12.50",
            "0.5000",
            "low_cylinder",
            "3;4",
            "Cylinder 3 read 862 kPa.",
            "Repeat.",
            "2026-03-30",
            "S"),
        rows.get(1).subList(0, 12));
  }

  @Test
  void theCautionsAreSaidOnceAndWithTheLineThatThisIsAdvice() {
    assertEquals("This is advice to inspect, never a clearance to run.", Cautions.ADVICE_ONLY);
    String all = String.join(" ", Cautions.ALL);
    for (String word :
        List.of(
            "maker",
            "fuel",
            "ignition",
            "intake",
            "rotating",
            "attery",
            "vapour",
            "hot",
            "high voltage",
            "local rules",
            "qualified staff")) {
      assertTrue(all.contains(word), word);
    }
  }
}
