package borecensus.domain;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * The physical layout of an engine's cylinders: banks, each listing cylinder numbers front to back.
 * Neighbours in a bank are physically adjacent; numbers alone say nothing about adjacency.
 *
 * @param banks cylinder numbers from 1, every cylinder exactly once
 */
public record Banks(List<List<Integer>> banks) implements Serializable {

  /** Two cylinders that share a wall, named by their numbers. */
  public record Pair(int first, int second) implements Serializable {}

  public Banks {
    banks = banks.stream().map(List::copyOf).toList();
  }

  /** One bank in number order. */
  public static Banks inLine(int cylinders) {
    return new Banks(List.of(range(1, cylinders)));
  }

  /**
   * Reads {@code 1-6|7-12} or {@code 1;3;5;7|2;4;6;8}; empty text means one bank in number order.
   *
   * @throws IllegalArgumentException when the text is not a layout of exactly these cylinders
   */
  public static Banks parse(String text, int cylinders) {
    if (text.isBlank()) {
      return inLine(cylinders);
    }
    List<List<Integer>> banks = new ArrayList<>();
    Set<Integer> seen = new HashSet<>();
    int count = 0;
    for (String bankText : text.split("\\|", -1)) {
      List<Integer> bank = parseBank(bankText);
      count += bank.size();
      seen.addAll(bank);
      banks.add(bank);
    }
    if (count != cylinders || !seen.equals(new HashSet<>(range(1, cylinders)))) {
      throw new IllegalArgumentException(
          "banks '" + text + "' do not name cylinders 1 to " + cylinders + " once each");
    }
    return new Banks(banks);
  }

  private static List<Integer> parseBank(String text) {
    List<Integer> bank = new ArrayList<>();
    for (String part : text.split(";", -1)) {
      String[] ends = part.strip().split("-", -1);
      int from = Integer.parseInt(ends[0].strip());
      int to = ends.length == 1 ? from : Integer.parseInt(ends[1].strip());
      if (ends.length > 2 || from < 1 || to < from || to > Limits.MAX_CYLINDERS) {
        throw new IllegalArgumentException("'" + part + "' is not a cylinder or a range of them");
      }
      bank.addAll(range(from, to));
    }
    return bank;
  }

  private static List<Integer> range(int from, int to) {
    List<Integer> numbers = new ArrayList<>();
    for (int i = from; i <= to; i++) {
      numbers.add(i);
    }
    return numbers;
  }

  /** Every physically adjacent pair, in bank order. */
  public List<Pair> adjacentPairs() {
    List<Pair> pairs = new ArrayList<>();
    for (List<Integer> bank : banks) {
      for (int i = 0; i + 1 < bank.size(); i++) {
        pairs.add(new Pair(bank.get(i), bank.get(i + 1)));
      }
    }
    return pairs;
  }

  /** The layout as {@link #parse} reads it. */
  public String text() {
    List<String> texts = new ArrayList<>();
    for (List<Integer> bank : banks) {
      texts.add(String.join(";", bank.stream().map(String::valueOf).toList()));
    }
    return String.join("|", texts);
  }
}
