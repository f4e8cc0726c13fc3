package borecensus.worklist;

import borecensus.domain.Reason;
import java.util.List;

/** Who the sentence speaks of. */
final class Subject {
  private Subject() {}

  static String of(EvidenceInput input) {
    List<Integer> cylinders = input.cylinders();
    if (cylinders.isEmpty()) {
      return "The engine";
    }
    if (input.reason() == Reason.LOW_ADJACENT_PAIR) {
      return "Neighbouring " + cylinderList(cylinders);
    }
    if (input.reason() == Reason.LOW_BANK) {
      return "The bank of " + cylinderList(cylinders);
    }
    String list = cylinderList(cylinders);
    return Character.toUpperCase(list.charAt(0)) + list.substring(1);
  }

  static String cylinderList(List<Integer> cylinders) {
    List<String> names = cylinders.stream().map(String::valueOf).toList();
    int last = names.size() - 1;
    return last == 0
        ? "cylinder " + names.get(0)
        : "cylinders " + String.join(", ", names.subList(0, last)) + " and " + names.get(last);
  }
}
