package borecensus.night;

import borecensus.registers.RegisterFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.EnumMap;
import java.util.Map;

/** Digests of the registers' bytes, or a word for none; each file is read once a night for them. */
record RegisterDigests(Map<RegisterFile, String> byFile) {

  static RegisterDigests of(FleetFiles files) {
    Map<RegisterFile, String> digests = new EnumMap<>(RegisterFile.class);
    for (RegisterFile register : RegisterFile.values()) {
      digests.put(register, of(files, register));
    }
    return new RegisterDigests(digests);
  }

  private static String of(FleetFiles files, RegisterFile register) {
    try {
      return files.holds(register.fileName()) ? files.contentDigest(register.fileName()) : "absent";
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  String of(RegisterFile register) {
    return byFile.get(register);
  }
}
