package borecensus.night;

import borecensus.night.RegisterBlocks.Register;
import borecensus.packed.ByteReader;
import borecensus.packed.RegisterBytes;
import borecensus.registers.RegisterProblem;
import java.io.IOException;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.TaskContext;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.api.java.function.FlatMapFunction2;
import org.apache.spark.rdd.PartitionPruningRDD;
import org.apache.spark.rdd.ShuffledRDD;
import org.apache.spark.serializer.KryoSerializer;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import scala.Function1;
import scala.Tuple2;
import scala.reflect.ClassTag;
import scala.reflect.ClassTag$;

/**
 * Brings together what is known of each vehicle: its tests in the ledger and its rows in the
 * registers, in one shuffle that every later step of the night reads again.
 */
final class GatherStage {
  private static final int TASKS_PER_CORE = 4;

  private GatherStage() {}

  /** Where a block comes from. */
  enum Source {
    TESTS,
    REGISTERS,
    /** Tests that the night has taken in, where those before it were settled by another night. */
    NEW_TESTS,
    /** Registers as the night before had them, where they have changed. */
    OLD_REGISTERS,
    /** What the night before said of the vehicles: {@link CarriedVehicle}. */
    CARRIED
  }

  /** A block and where it comes from. */
  record Block(Source source, byte[] bytes) implements Serializable {}

  /**
   * What was brought together; nothing runs before it is used.
   *
   * @param blocks a partition for each section
   */
  record Gathered(Sections sections, JavaRDD<Block> blocks) {

    /** Blocks of vehicles as they are tonight, for {@link GatheredVehicles}. */
    JavaRDD<byte[]> vehicles() {
      return tonight(only(blocks, sections::isVehicles));
    }

    /**
     * Blocks of vehicles, those of the night before among them.
     *
     * @param carried a partition for each section of vehicles
     */
    JavaRDD<Block> vehiclesBeside(JavaRDD<byte[]> carried) {
      return only(blocks, sections::isVehicles).zipPartitions(carried, new Beside(Source.CARRIED));
    }

    /** Blocks of hashes of test ids and their vehicles. */
    JavaRDD<byte[]> testIds() {
      return tonight(only(blocks, sections::isTestIds));
    }

    /** The problems met in the registers, as rows of their table. */
    JavaRDD<Row> notes() {
      return tonight(only(blocks, sections::isProblems)).flatMap(GatherStage::notes);
    }

    /** The same with more blocks, from as many partitions. */
    Gathered with(Source source, JavaRDD<byte[]> more) {
      return new Gathered(sections, blocks.zipPartitions(more, new Beside(source)));
    }

    private static JavaRDD<byte[]> tonight(JavaRDD<Block> blocks) {
      return blocks.filter(block -> block.source() != Source.OLD_REGISTERS).map(Block::bytes);
    }
  }

  /** Blocks of one source alone. */
  static Gathered of(Sections sections, Source source, JavaRDD<byte[]> blocks) {
    return new Gathered(sections, blocks.map(bytes -> new Block(source, bytes)));
  }

  private record Beside(Source source)
      implements FlatMapFunction2<Iterator<Block>, Iterator<byte[]>, Block> {
    @Override
    public Iterator<Block> call(Iterator<Block> blocks, Iterator<byte[]> more) {
      return new Iterator<>() {
        @Override
        public boolean hasNext() {
          return blocks.hasNext() || more.hasNext();
        }

        @Override
        public Block next() {
          return blocks.hasNext() ? blocks.next() : new Block(source, more.next());
        }
      };
    }
  }

  /** The tests of some batches of the ledger by section. */
  static JavaRDD<byte[]> tests(JavaSparkContext context, List<Path> batches, Sections sections) {
    List<LedgerPart> parts = LedgerPart.of(batches);
    int tasks = Math.min(parts.size(), TASKS_PER_CORE * context.defaultParallelism());
    return shuffled(
        context.parallelize(parts, Math.max(1, tasks)).mapPartitions(new ToBlocks(sections)),
        sections);
  }

  /** The registers of a fleet folder by section. */
  static JavaRDD<byte[]> registers(SparkSession spark, FleetFiles files, Sections sections) {
    JavaSparkContext context = JavaSparkContext.fromSparkContext(spark.sparkContext());
    return shuffled(
        context
            .parallelize(Arrays.asList(Register.values()), Register.values().length)
            .flatMap(new RegisterBlocks(files, sections)),
        sections);
  }

  private record ToBlocks(Sections sections)
      implements FlatMapFunction<Iterator<LedgerPart>, Tuple2<Integer, byte[]>> {
    @Override
    public Iterator<Tuple2<Integer, byte[]>> call(Iterator<LedgerPart> parts) {
      TestBlocks blocks = new TestBlocks(parts, sections);
      TaskContext.get()
          .addTaskCompletionListener(
              task -> {
                // Spark counts by itself only what its own readers read.
                task.taskMetrics().inputMetrics().incRecordsRead(blocks.written());
                close(blocks);
              });
      return blocks;
    }

    private static void close(TestBlocks blocks) {
      try {
        blocks.close();
      } catch (IOException failure) {
        throw new UncheckedIOException(failure);
      }
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

  private static JavaRDD<Block> only(JavaRDD<Block> all, Chosen chosen) {
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
