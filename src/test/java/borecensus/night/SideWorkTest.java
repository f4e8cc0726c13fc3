package borecensus.night;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;

class SideWorkTest {
  @Test
  void theWorkGivesItsValueAtItsEnd() {
    try (SideWork<String> work = SideWork.begin("side", () -> "done")) {
      assertEquals("done", work.end());
    }
  }

  @Test
  void whatGoesWrongBesideGoesWrongWhereItIsWaitedFor() {
    IllegalArgumentException wrong = new IllegalArgumentException("no room");
    try (SideWork<String> work =
        SideWork.begin(
            "side",
            () -> {
              throw wrong;
            })) {
      assertEquals(wrong, assertThrows(IllegalArgumentException.class, work::end));
    }
  }

  @Test
  void workOfANightThatFailedElsewhereHasStoppedBeforeTheNightIsLeft() throws Exception {
    CountDownLatch begun = new CountDownLatch(1);
    AtomicBoolean stopped = new AtomicBoolean();
    AtomicBoolean finished = new AtomicBoolean();
    SideWork<Boolean> work =
        SideWork.begin(
            "side",
            () -> {
              try {
                begun.countDown();
                new CountDownLatch(1).await();
                finished.set(true);
              } catch (InterruptedException asked) {
                stopped.set(true);
              }
              return true;
            });
    begun.await();
    work.close();
    assertTrue(stopped.get());
    assertFalse(finished.get());
  }
}
