package borecensus.benchmark;

import borecensus.benchmark.RelationalAnswers.FamilyCentiles;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.api.java.function.MapFunction;
import org.apache.spark.api.java.function.MapGroupsFunction;
import org.apache.spark.api.java.function.MapPartitionsFunction;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.types.DataTypes;
import org.apache.spark.sql.types.StructType;

/** Exact centiles by family: values travel as blocks of numbers and not as rows. */
final class FamilyBlocks {
  static final StructType SCHEMA =
      new StructType()
          .add("family_id", DataTypes.StringType)
          .add("level", DataTypes.BinaryType)
          .add("spread_pct", DataTypes.BinaryType);

  private static final StructType CENTILES =
      new StructType()
          .add("family_id", DataTypes.StringType)
          .add("tests", DataTypes.LongType)
          .add("level", DataTypes.BinaryType)
          .add("spread_pct", DataTypes.BinaryType);

  private FamilyBlocks() {}

  static Dataset<Row> centiles(Dataset<Row> blocks) {
    return blocks
        .groupByKey((MapFunction<Row, String>) row -> row.getString(0), Encoders.STRING())
        .mapGroups(new Centiles(), Encoders.row(CENTILES));
  }

  static FamilyCentiles toCentiles(Row row) {
    return new FamilyCentiles(
        row.getString(0), row.getLong(1), numbers(row.getAs(2)), numbers(row.getAs(3)));
  }

  static double middle(FamilyCentiles family) {
    return family.level()[Arrays.binarySearch(RelationalAnswers.CENTILES, 0.5)];
  }

  /** A growing array of numbers. */
  private static final class Numbers {
    private double[] values = new double[64];
    private int size;

    void add(double value) {
      if (size == values.length) {
        values = Arrays.copyOf(values, 2 * size);
      }
      values[size++] = value;
    }

    void addAll(byte[] block) {
      for (double value : numbers(block)) {
        add(value);
      }
    }

    byte[] toBytes() {
      return bytes(Arrays.copyOf(values, size));
    }

    /** Centiles by linear interpolation (Hyndman and Fan, 1996, definition 7). */
    double[] centiles() {
      Arrays.sort(values, 0, size);
      return Arrays.stream(RelationalAnswers.CENTILES).map(this::centile).toArray();
    }

    private double centile(double p) {
      double place = p * (size - 1);
      int below = (int) place;
      int above = Math.min(size - 1, below + 1);
      return values[below] + (place - below) * (values[above] - values[below]);
    }
  }

  private static byte[] bytes(double[] values) {
    ByteBuffer buffer = ByteBuffer.allocate(values.length * Double.BYTES);
    buffer.asDoubleBuffer().put(values);
    return buffer.array();
  }

  private static double[] numbers(byte[] block) {
    double[] values = new double[block.length / Double.BYTES];
    ByteBuffer.wrap(block).asDoubleBuffer().get(values);
    return values;
  }

  private record Pair(Numbers level, Numbers spreadPct) {}

  /** All values of one partition, one row per family. */
  static final class Gather implements MapPartitionsFunction<Row, Row> {
    @Override
    public Iterator<Row> call(Iterator<Row> rows) {
      Map<String, Pair> byFamily = new TreeMap<>();
      while (rows.hasNext()) {
        Row row = rows.next();
        Pair pair =
            byFamily.computeIfAbsent(row.getString(0), f -> new Pair(new Numbers(), new Numbers()));
        pair.level().add(row.getDouble(1));
        pair.spreadPct().add(row.getDouble(2));
      }
      List<Row> blocks = new ArrayList<>();
      byFamily.forEach(
          (family, pair) ->
              blocks.add(
                  RowFactory.create(family, pair.level().toBytes(), pair.spreadPct().toBytes())));
      return blocks.iterator();
    }
  }

  private static final class Centiles implements MapGroupsFunction<String, Row, Row> {
    @Override
    public Row call(String familyId, Iterator<Row> blocks) {
      Numbers level = new Numbers();
      Numbers spreadPct = new Numbers();
      while (blocks.hasNext()) {
        Row block = blocks.next();
        level.addAll(block.getAs(1));
        spreadPct.addAll(block.getAs(2));
      }
      long tests = level.size;
      return RowFactory.create(
          familyId, tests, bytes(level.centiles()), bytes(spreadPct.centiles()));
    }
  }
}
