package borecensus.norms;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.AbstractList;
import java.util.List;
import java.util.RandomAccess;

/**
 * Periods of one gauge, oldest first. What every test asks for stands in one array: with thousands
 * of gauges, a walk from object to object would wait for memory at each step.
 */
final class PeriodsOfGauge extends AbstractList<GaugePeriod> implements RandomAccess, Serializable {
  private static final long serialVersionUID = 1L;

  private static final int FIRST_DAY = 0;
  private static final int OFFSET = 1;
  private static final int STANDARD_ERROR = 2;
  private static final int NUMBERS = 3;

  private final GaugePeriod[] periods;

  /** By period: first day (days since 1970, which a double holds exactly), offset, its error. */
  private final double[] numbers;

  private PeriodsOfGauge(List<GaugePeriod> periods) {
    this.periods = periods.toArray(new GaugePeriod[0]);
    numbers = new double[NUMBERS * this.periods.length];
    for (int i = 0; i < this.periods.length; i++) {
      GaugePeriod period = this.periods[i];
      numbers[NUMBERS * i + FIRST_DAY] = period.from().toEpochDay();
      numbers[NUMBERS * i + OFFSET] = period.offsetLog();
      numbers[NUMBERS * i + STANDARD_ERROR] = period.standardErrorLog();
    }
  }

  static PeriodsOfGauge copyOf(List<GaugePeriod> periods) {
    return periods instanceof PeriodsOfGauge same ? same : new PeriodsOfGauge(periods);
  }

  @Override
  public GaugePeriod get(int period) {
    return periods[period];
  }

  @Override
  public int size() {
    return numbers.length / NUMBERS;
  }

  double offsetLog(int period) {
    return numbers[NUMBERS * period + OFFSET];
  }

  double standardErrorLog(int period) {
    return numbers[NUMBERS * period + STANDARD_ERROR];
  }

  /** The last period that begins on a day or before it; 0 where there is none. */
  int on(LocalDate day) {
    double sought = day.toEpochDay();
    int last = 0;
    int after = size();
    while (last + 1 < after) {
      int middle = (last + after) >>> 1;
      if (sought < numbers[NUMBERS * middle + FIRST_DAY]) {
        after = middle;
      } else {
        last = middle;
      }
    }
    return last;
  }
}
