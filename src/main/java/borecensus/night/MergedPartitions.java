package borecensus.night;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.apache.spark.NarrowDependency;
import org.apache.spark.Partition;
import org.apache.spark.TaskContext;
import org.apache.spark.rdd.RDD;
import scala.collection.immutable.Seq;
import scala.jdk.javaapi.CollectionConverters;

/**
 * Partitions that are each in the order of vehicles, merged to fewer ones that are in order too:
 * nothing is sorted again, and only one element of each partition is held.
 */
final class MergedPartitions<T> extends RDD<T> {
  private final RDD<T> parent;
  private final int count;
  private final MergedInOrder.VehicleOf<T> vehicleOf;

  /**
   * Merges neighbouring partitions.
   *
   * @param parent with each partition in the order of vehicles
   * @param count how many partitions there shall be, at most as many as there are
   */
  MergedPartitions(RDD<T> parent, int count, MergedInOrder.VehicleOf<T> vehicleOf) {
    super(
        parent.context(), seq(List.of(new Neighbours<>(parent, count))), parent.elementClassTag());
    this.parent = parent;
    this.vehicleOf = vehicleOf;
    this.count = Math.max(1, Math.min(count, parent.getNumPartitions()));
  }

  @Override
  public Partition[] getPartitions() {
    Partition[] all = parent.partitions();
    Partition[] merged = new Partition[Math.min(count, all.length)];
    for (int i = 0; i < merged.length; i++) {
      List<Partition> parts = new ArrayList<>();
      for (int p = first(i, merged.length, all.length);
          p < first(i + 1, merged.length, all.length);
          p++) {
        parts.add(all[p]);
      }
      merged[i] = new Merged(i, parts.toArray(Partition[]::new));
    }
    return merged;
  }

  @Override
  public scala.collection.Iterator<T> compute(Partition split, TaskContext context) {
    List<Iterator<T>> parts = new ArrayList<>();
    for (Partition part : ((Merged) split).parts()) {
      parts.add(CollectionConverters.asJava(parent.iterator(part, context)));
    }
    return CollectionConverters.asScala(new MergedInOrder<>(parts, vehicleOf));
  }

  private static int first(int merged, int count, int parts) {
    return (int) ((long) merged * parts / count);
  }

  private static <T> Seq<T> seq(List<T> values) {
    return CollectionConverters.asScala(values).toSeq();
  }

  private record Merged(int index, Partition[] parts) implements Partition {}

  private static final class Neighbours<T> extends NarrowDependency<T> {
    private final int count;
    private final int parts;

    Neighbours(RDD<T> parent, int count) {
      super(parent);
      this.parts = parent.getNumPartitions();
      this.count = Math.max(1, Math.min(count, parts));
    }

    @Override
    public Seq<Object> getParents(int merged) {
      List<Object> parents = new ArrayList<>();
      for (int p = first(merged, count, parts); p < first(merged + 1, count, parts); p++) {
        parents.add(p);
      }
      return seq(parents);
    }
  }
}
