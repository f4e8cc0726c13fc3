package borecensus.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.query.SmallStore;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.TimeZone;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

class QueryCommandTest {

  private record Answer(int status, String out, String err) {}

  @TempDir Path work;
  private SmallStore store;

  @BeforeEach
  void layStore() throws Exception {
    // The folder's name has what SQL text, globs and partition folders give a meaning to.
    store =
        SmallStore.in(work.resolve("run=5 o'brien [a]*"), "2026-03-31.a_1")
            .table(
                "work_list",
                "part-0.parquet",
                "SELECT 1 AS rank, 'V-1, \"old\"' AS vehicle_id, [3, 4] AS suspect_cylinders,"
                    + " DATE '2026-03-30' AS last_tested_on,"
                    + " TIMESTAMP '2026-03-29 02:30:00' AS tested_at,"
                    + " TIMESTAMPTZ '2026-03-29 01:30:00+00' AS seen_at,"
                    + " 0.1::DOUBLE + 0.2::DOUBLE AS z, NULL::DOUBLE AS q_value,"
                    + " 12.50::DECIMAL(9,2) AS priority, true AS marked")
            .table(
                "work_list",
                "part-1.parquet",
                "SELECT 2 AS rank, '=V-2' AS vehicle_id, []::INT[] AS suspect_cylinders,"
                    + " DATE '2026-03-31' AS last_tested_on,"
                    + " TIMESTAMP '2026-03-31 08:00:00.25' AS tested_at,"
                    + " TIMESTAMPTZ '2026-03-31 08:00:00+00' AS seen_at,"
                    + " 'NaN'::DOUBLE AS z, 0.5::DOUBLE AS q_value,"
                    + " 3.00::DECIMAL(9,2) AS priority, false AS marked")
            .table("gauge_offsets", "a.parquet", "SELECT 'G''1' AS gauge_id, -1e-7 AS offset_pct");
    Files.writeString(store.snapshot().resolve("work_list.csv"), "rank\n1\n");
  }

  private Answer run(Path folder, String... more) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    QueryCommand command =
        new QueryCommand(out, new PrintStream(err, true, StandardCharsets.UTF_8));
    String[] args =
        Stream.concat(Stream.of("--store", folder.toString()), Stream.of(more))
            .toArray(String[]::new);
    int status = new CommandLine(command).execute(args);
    return new Answer(
        status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
  }

  private Answer ask(String... more) {
    return run(store.folder(), more);
  }

  @Test
  void aTableIsAnsweredByNameAsCsvWithOneTextForEveryType() {
    Answer answer = ask("SELECT * FROM work_list ORDER BY rank");

    assertEquals("", answer.err());
    assertEquals(
        "rank,vehicle_id,suspect_cylinders,last_tested_on,tested_at,seen_at,z,q_value,priority,"
            + "marked\n"
            + "1,\"V-1, \"\"old\"\"\",3;4,2026-03-30,2026-03-29T02:30:00,2026-03-29T01:30:00Z,"
            + "0.30000000000000004,,12.50,true\n"
            + "2,=V-2,\"\",2026-03-31,2026-03-31T08:00:00.25,2026-03-31T08:00:00Z,NaN,0.5,3.00,"
            + "false\n",
        answer.out());
    assertEquals(0, answer.status());
  }

  @Test
  void timesAreTheSameOnAMachineInAZoneWithSummerTime() {
    TimeZone before = TimeZone.getDefault();
    TimeZone.setDefault(TimeZone.getTimeZone("Europe/Paris"));
    try {
      Answer answer = ask("SELECT tested_at, seen_at FROM work_list WHERE rank = 1");
      assertEquals("tested_at,seen_at\n2026-03-29T02:30:00,2026-03-29T01:30:00Z\n", answer.out());
    } finally {
      TimeZone.setDefault(before);
    }
  }

  @Test
  void jsonIsOneArrayOfObjectsWithNullForAbsentNumbers() {
    Answer answer =
        ask(
            "--format",
            "json",
            "SELECT vehicle_id, suspect_cylinders, z, q_value, priority, marked, last_tested_on"
                + " FROM work_list ORDER BY rank");

    assertEquals(
        "[\n"
            + "{\"vehicle_id\":\"V-1, \\\"old\\\"\",\"suspect_cylinders\":[3,4],"
            + "\"z\":0.30000000000000004,\"q_value\":null,\"priority\":12.50,\"marked\":true,"
            + "\"last_tested_on\":\"2026-03-30\"},\n"
            + "{\"vehicle_id\":\"=V-2\",\"suspect_cylinders\":[],\"z\":null,\"q_value\":0.5,"
            + "\"priority\":3.00,\"marked\":false,\"last_tested_on\":\"2026-03-31\"}\n"
            + "]\n",
        answer.out());
  }

  @Test
  void anEmptyResultIsAHeaderAloneInCsvAndAnEmptyArrayInJson() {
    assertEquals("rank\n", ask("SELECT rank FROM work_list WHERE rank > 9").out());
    assertEquals(
        "[\n]\n", ask("--format", "json", "SELECT rank FROM work_list WHERE rank > 9").out());
  }

  @Test
  void theTextTableIsAlignedAndHidesControlCharacters() {
    Answer answer =
        ask(
            "--format",
            "table",
            "SELECT 'a' || chr(27) || '[2J' AS x, 7 AS n UNION ALL SELECT 'b', 12345");

    assertEquals("x          n\n-----  -----\na [2J      7\nb      12345\n", answer.out());
  }

  @Test
  void aLongTextTableKeepsEveryRow() {
    Answer answer = ask("--format", "table", "SELECT range AS n FROM range(2500)");

    List<String> lines = answer.out().lines().toList();
    assertEquals(2502, lines.size());
    assertEquals("2499", lines.get(2501).strip());
  }

  @Test
  void tablesAndColumnsCanBeListed() {
    assertEquals("name\ngauge_offsets\nwork_list\n", ask("SHOW TABLES").out());
    assertTrue(ask("DESCRIBE gauge_offsets").out().contains("\noffset_pct,"));
  }

  @Test
  void commentsAndSemicolonsInTextAreNoSecondStatement() {
    assertEquals("x\na;b\n", ask("SELECT 'a;b' AS x; -- ; COPY").out());
  }

  static Stream<String> hostileStatements() {
    return Stream.of(
        "SELECT * FROM read_csv('/etc/passwd')",
        "SELECT * FROM '/etc/passwd'",
        "SELECT * FROM read_text('/etc/pass*')",
        "SELECT * FROM read_blob('/proc/self/environ')",
        "SELECT * FROM glob('/etc/*')",
        "SELECT * FROM sniff_csv('/etc/passwd')",
        "SELECT * FROM query('SELECT * FROM read_text(''/etc/passwd'')')",
        "SELECT * FROM read_parquet('https://example.invalid/a.parquet')",
        "SELECT * FROM read_text('{snapshot}/work_list.csv')",
        "SELECT * FROM read_text('{snapshot}/work_list/../../../CURRENT')",
        "COPY (SELECT 1) TO '{work}/stolen.csv'",
        "COPY (SELECT 1) TO '{snapshot}/stolen.csv'",
        "COPY (SELECT 1) TO '{snapshot}/work_list/part-0.parquet' (FORMAT parquet, USE_TMP_FILE false)",
        "EXPORT DATABASE '{work}/stolen'",
        "IMPORT DATABASE '{work}'",
        "ATTACH '{work}/stolen.db'",
        "ATTACH ':memory:' AS other",
        "INSTALL httpfs",
        "LOAD httpfs",
        "LOAD '{work}/evil.so'",
        "SET threads = 4",
        "SET enable_external_access = true",
        "RESET allowed_paths",
        "PRAGMA database_list",
        "PRAGMA enable_profiling",
        "CALL pragma_version()",
        "CREATE TABLE t (a INT)",
        "CREATE SECRET s (TYPE http)",
        "DROP VIEW work_list",
        "INSERT INTO work_list VALUES (1)",
        "DELETE FROM work_list",
        "WITH x AS (DELETE FROM work_list RETURNING *) SELECT * FROM x",
        "PREPARE p AS SELECT 1",
        "EXPLAIN ANALYZE COPY (SELECT 1) TO '{work}/stolen.csv'",
        "BEGIN",
        "CHECKPOINT",
        "SELECT 1; SELECT 2",
        "SELECT 1; COPY (SELECT 1) TO '{work}/stolen.csv'",
        "SELECT 1 /* ' */; COPY (SELECT 1) TO '{work}/stolen.csv' -- '",
        "",
        "-- nothing");
  }

  @ParameterizedTest
  @MethodSource("hostileStatements")
  void whatIsNotReadingTheTablesIsRefusedInOneLine(String template) throws IOException {
    String sql =
        template
            .replace("{snapshot}", store.snapshot().toString().replace("'", "''"))
            .replace("{work}", work.toString());
    List<String> before = filesBelow(work);

    Answer answer = ask("--", sql);

    assertEquals(2, answer.status(), answer.toString());
    assertEquals("", answer.out());
    assertIsOneLine(answer.err());
    assertEquals(before, filesBelow(work), "nothing may be written");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "SELEC 1",
        "SELECT nope FROM work_list",
        "SELECT * FROM nope",
        "SELECT * FROM work_list WHERE rank = ?",
        "SELECT CAST('x' AS INT)",
        "SELECT (",
        "SELECT 'open"
      })
  void wrongSqlIsOneLineWithoutAStackTrace(String sql) {
    Answer answer = ask(sql);

    assertEquals(2, answer.status(), answer.toString());
    assertIsOneLine(answer.err());
  }

  @Test
  void anUnknownColumnIsNamedInTheMessage() {
    assertTrue(ask("SELECT nope FROM work_list").err().contains("\"nope\""));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "..",
        ".",
        "../../x",
        "/etc",
        "a/b",
        "a\\b",
        "2026-03-31.a_1\nx",
        "é",
        "not-there",
        "a\0b"
      })
  void aCurrentThatNamesNoSnapshotMakesTheStoreUnusable(String content) throws IOException {
    Files.writeString(store.folder().resolve("CURRENT"), content);

    Answer answer = ask("SELECT 1");

    assertEquals(3, answer.status(), answer.toString());
    assertIsOneLine(answer.err());
    assertTrue(answer.err().contains("CURRENT"), answer.err());
  }

  @Test
  void anEndlessCurrentIsNotReadToItsEnd() throws IOException {
    Files.writeString(store.folder().resolve("CURRENT"), "a".repeat(100_000));

    Answer answer = ask("SELECT 1");

    assertEquals(3, answer.status());
    assertTrue(answer.err().length() < 500, "the message must not repeat the file");
  }

  @Test
  void aStoreWithoutCurrentSaysWhatToRun() throws IOException {
    Files.delete(store.folder().resolve("CURRENT"));

    Answer answer = ask("SELECT 1");

    assertEquals(3, answer.status());
    assertTrue(answer.err().contains("run jobs/nightly first"), answer.err());
    assertEquals(3, run(work.resolve("nowhere"), "SELECT 1").status());
  }

  @Test
  void aDamagedTableFileMakesTheStoreUnusable() throws IOException {
    Files.writeString(store.snapshot().resolve("gauge_offsets").resolve("a.parquet"), "PAR1 junk");

    Answer answer = ask("SELECT 1");

    assertEquals(3, answer.status(), answer.toString());
    assertIsOneLine(answer.err());
    assertTrue(answer.err().contains("gauge_offsets"), answer.err());
  }

  @Test
  void aLinkOutOfTheSnapshotIsNoTable() throws Exception {
    Path secret =
        SmallStore.in(work.resolve("other"), "x")
            .table("secret", "s.parquet", "SELECT 1 AS s")
            .snapshot();
    Files.createSymbolicLink(store.snapshot().resolve("linked"), secret.resolve("secret"));
    Files.createDirectories(store.snapshot().resolve("files"));
    Files.createSymbolicLink(
        store.snapshot().resolve("files").resolve("s.parquet"),
        secret.resolve("secret").resolve("s.parquet"));

    assertEquals("name\ngauge_offsets\nwork_list\n", ask("SHOW TABLES").out());
  }

  @Test
  void aMissingStatementOrAnUnknownFormatIsWrongUse() {
    assertEquals(2, ask().status());
    assertEquals(2, ask("--format", "xml", "SELECT 1").status());
    assertEquals(2, ask("SELECT 1", "SELECT 2").status());
  }

  @Test
  void aReaderThatHasSeenEnoughIsNoErrorAndAFullDiskIs() {
    assertEquals(0, statusWhenOutputFailsWith("Broken pipe"));
    assertEquals(1, statusWhenOutputFailsWith("No space left on device"));
  }

  private int statusWhenOutputFailsWith(String message) {
    OutputStream failing =
        new OutputStream() {
          @Override
          public void write(int b) throws IOException {
            throw new IOException(message);
          }
        };
    PrintStream err =
        new PrintStream(OutputStream.nullOutputStream(), true, StandardCharsets.UTF_8);
    return new CommandLine(new QueryCommand(failing, err))
        .execute("--store", store.folder().toString(), "SELECT * FROM range(100000)");
  }

  private static void assertIsOneLine(String err) {
    assertEquals(1, err.lines().count(), err);
    assertTrue(err.startsWith("query: "), err);
    assertFalse(err.contains("Exception"), err);
  }

  private static List<String> filesBelow(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.map(Path::toString).sorted().toList();
    }
  }
}
