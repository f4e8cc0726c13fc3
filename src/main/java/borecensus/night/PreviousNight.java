package borecensus.night;

import java.nio.file.Path;
import java.time.LocalDate;

/** The snapshot that stood before this night. */
record PreviousNight(Path snapshot, LocalDate asOf) {}
