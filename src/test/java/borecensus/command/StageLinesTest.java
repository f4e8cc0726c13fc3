package borecensus.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.night.TaskCount;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

class StageLinesTest {
  private final ByteArrayOutputStream written = new ByteArrayOutputStream();
  private final AtomicLong nanos = new AtomicLong();

  @Test
  void aLogHoldsOneLinePerStepAndNoCounts() {
    StageLines lines = lines(StageLines.Kind.LOG);
    lines.begins("ledger");
    seconds(20);
    lines.advances(new TaskCount(100, 200, 20));
    seconds(21);
    lines.ends("9 rows");
    assertEquals("  ledger       21.0 s  9 rows" + System.lineSeparator(), text());
  }

  @Test
  void aTerminalShowsTheTasksOfTheStepUnderWayAndWhatIsLeft() {
    StageLines lines = lines(StageLines.Kind.TERMINAL);
    lines.begins("ledger");
    seconds(4);
    lines.advances(new TaskCount(40, 200, 5));
    assertTrue(text().endsWith("ledger     ... 40 of 200 tasks, about 20 s left"), text());
  }

  @Test
  void nothingIsSaidOfTimeBeforeEnoughTasksAreDone() {
    StageLines lines = lines(StageLines.Kind.TERMINAL);
    lines.begins("ledger");
    seconds(4);
    lines.advances(new TaskCount(3, 10, 5));
    assertTrue(text().endsWith("... 3 of 10 tasks"), text());
  }

  @Test
  void countsComeFourTimesASecondAtMost() {
    StageLines lines = lines(StageLines.Kind.TERMINAL);
    lines.begins("ledger");
    seconds(4);
    for (int done = 1; done <= 100; done++) {
      lines.advances(new TaskCount(done, 100, 5));
    }
    assertEquals(1, text().split("of 100 tasks", -1).length - 1, text());
  }

  @Test
  void aCountThatComesLateIsNotShownBehindTheStepThatHasEnded() {
    StageLines lines = lines(StageLines.Kind.TERMINAL);
    lines.begins("ledger");
    lines.ends("9 rows");
    seconds(4);
    lines.advances(new TaskCount(1, 100, 5));
    assertTrue(text().endsWith("9 rows" + System.lineSeparator()), text());
  }

  @Test
  void whatIsSaidAfterANightBrokeOffStandsOnALineOfItsOwn() {
    StageLines lines = lines(StageLines.Kind.TERMINAL);
    lines.begins("ledger");
    lines.measured(List.of());
    assertTrue(text().endsWith("ledger     ... " + System.lineSeparator()), text());
  }

  private StageLines lines(StageLines.Kind kind) {
    PrintStream out = new PrintStream(written, true, StandardCharsets.UTF_8);
    return new StageLines(kind, out, nanos::get);
  }

  private void seconds(long now) {
    nanos.set(now * 1_000_000_000L);
  }

  private String text() {
    return written.toString(StandardCharsets.UTF_8);
  }
}
