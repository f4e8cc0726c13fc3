package borecensus.night;

import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.catalyst.InternalRow;
import org.apache.spark.unsafe.types.UTF8String;

/** How often each of a few texts stands in a column. */
final class TextCounts {
  private TextCounts() {}

  /** Counts the one column of some rows; nothing is shuffled for it. */
  static Map<String, Long> of(Dataset<Row> column) {
    Map<String, Long> all = new TreeMap<>();
    for (Map<String, Long> part :
        column.queryExecution().toRdd().toJavaRDD().mapPartitions(new Count()).collect()) {
      part.forEach((text, count) -> all.merge(text, count, Long::sum));
    }
    return all;
  }

  private static final class Count
      implements FlatMapFunction<Iterator<InternalRow>, Map<String, Long>> {
    @Override
    public Iterator<Map<String, Long>> call(Iterator<InternalRow> rows) {
      Map<UTF8String, long[]> counts = new HashMap<>();
      while (rows.hasNext()) {
        UTF8String text = rows.next().getUTF8String(0);
        long[] count = counts.get(text);
        if (count == null) {
          // The text that is given to us belongs to the next row too.
          count = new long[1];
          counts.put(text.clone(), count);
        }
        count[0]++;
      }
      Map<String, Long> told = new TreeMap<>();
      counts.forEach((text, count) -> told.put(text.toString(), count[0]));
      return List.of(told).iterator();
    }
  }
}
