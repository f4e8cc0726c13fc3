package borecensus.night;

import java.util.Locale;

/** What a row of the ledger is. */
enum LedgerKind {
  TEST,
  REFUSED,
  REPEATED,
  FILE;

  private final String code = name().toLowerCase(Locale.ROOT);

  String code() {
    return code;
  }
}
