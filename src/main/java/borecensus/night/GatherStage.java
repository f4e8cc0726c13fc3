package borecensus.night;

import borecensus.night.RegisterBlocks.Register;
import borecensus.packed.ByteReader;
import borecensus.packed.RegisterBytes;
import borecensus.registers.RegisterProblem;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.rdd.PartitionPruningRDD;
import org.apache.spark.rdd.ShuffledRDD;
import org.apache.spark.serializer.KryoSerializer;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.catalyst.InternalRow;
import scala.Function1;
import scala.Tuple2;
import scala.reflect.ClassTag;
import scala.reflect.ClassTag$;

/**
 * Brings together what is known of each vehicle: its tests in the ledger and its rows in the
 * registers, in one shuffle that every later step of the night reads again.
 */
final class GatherStage {
  private GatherStage() {}

  /**
   * What was brought together; nothing runs before it is used.
   *
   * @param vehicles blocks of vehicles, for {@link GatheredVehicles}
   * @param testIds blocks of hashes of test ids and their vehicles
   * @param problems blocks of problems met in the registers
   */
  record Gathered(
      Sections sections,
      JavaRDD<byte[]> vehicles,
      JavaRDD<byte[]> testIds,
      JavaRDD<byte[]> problems) {

    /** The problems met in the registers, as rows of their table. */
    JavaRDD<Row> notes() {
      return problems.flatMap(GatherStage::notes);
    }
  }

  /**
   * Gathers tests and the registers of a fleet folder.
   *
   * @param tests ledger rows of kind test
   */
  static Gathered gather(
      SparkSession spark, Dataset<Row> tests, FleetFiles files, Sections sections) {
    JavaSparkContext context = JavaSparkContext.fromSparkContext(spark.sparkContext());
    JavaRDD<InternalRow> rows =
        tests.select(TestBlocks.columns()).queryExecution().toRdd().toJavaRDD();
    JavaRDD<Register> registers =
        context.parallelize(Arrays.asList(Register.values()), Register.values().length);
    JavaRDD<byte[]> all =
        shuffled(
            registers
                .flatMap(new RegisterBlocks(files, sections))
                .union(rows.mapPartitions(new ToBlocks(sections))),
            sections);
    return new Gathered(
        sections,
        only(all, sections::isVehicles),
        only(all, sections::isTestIds),
        only(all, sections::isProblems));
  }

  private record ToBlocks(Sections sections)
      implements FlatMapFunction<Iterator<InternalRow>, Tuple2<Integer, byte[]>> {
    @Override
    public Iterator<Tuple2<Integer, byte[]>> call(Iterator<InternalRow> rows) {
      return new TestBlocks(rows, sections);
    }
  }

  /** Java's own serializer would hold on to the blocks of a task until it ends. */
  private static JavaRDD<byte[]> shuffled(
      JavaRDD<Tuple2<Integer, byte[]>> blocks, Sections sections) {
    ClassTag<byte[]> bytes = ClassTag$.MODULE$.apply(byte[].class);
    ShuffledRDD<Integer, byte[], byte[]> shuffled =
        new ShuffledRDD<>(
            blocks.rdd(), sections, ClassTag$.MODULE$.apply(Integer.class), bytes, bytes);
    return shuffled
        .setSerializer(new KryoSerializer(blocks.context().getConf()))
        .toJavaRDD()
        .map(Tuple2::_2);
  }

  private interface Chosen extends Serializable {
    boolean has(int partition);
  }

  private static JavaRDD<byte[]> only(JavaRDD<byte[]> all, Chosen chosen) {
    Function1<Object, Object> filter =
        (Function1<Object, Object> & Serializable) partition -> chosen.has((Integer) partition);
    return PartitionPruningRDD.create(all.rdd(), filter).toJavaRDD();
  }

  private static Iterator<Row> notes(byte[] block) {
    List<RegisterProblem> problems = new ArrayList<>();
    ByteReader in = new ByteReader(block);
    while (in.hasMore()) {
      problems.add(RegisterBytes.readProblem(in));
    }
    return NormRows.registerNotes(problems).iterator();
  }
}
