package borecensus.night;

import java.util.Locale;

/** What a row of the ledger is. */
enum LedgerKind {
  TEST,
  REFUSED,
  REPEATED,
  FILE;

  String code() {
    return name().toLowerCase(Locale.ROOT);
  }
}
