package borecensus.night;

import borecensus.tables.Column;
import borecensus.tables.Table;
import java.util.Comparator;
import java.util.List;
import org.apache.spark.sql.Row;
import org.apache.spark.unsafe.types.UTF8String;

/** The total order of a table as Spark sorts it: what is absent first, text by its UTF-8 bytes. */
final class RowOrder implements Comparator<Row> {
  private static final Comparator<Comparable<Object>> ABSENT_FIRST =
      Comparator.nullsFirst(Comparator.naturalOrder());

  private final int[] fields;

  RowOrder(Table table) {
    List<String> names = table.columns().stream().map(Column::name).toList();
    fields = table.order().stream().mapToInt(names::indexOf).toArray();
  }

  @Override
  public int compare(Row a, Row b) {
    int order = 0;
    for (int i = 0; i < fields.length && order == 0; i++) {
      order = ABSENT_FIRST.compare(key(a, fields[i]), key(b, fields[i]));
    }
    return order;
  }

  @SuppressWarnings("unchecked")
  private static Comparable<Object> key(Row row, int field) {
    Object cell = row.get(field);
    return (Comparable<Object>) (cell instanceof String text ? UTF8String.fromString(text) : cell);
  }
}
