package borecensus.night;

import borecensus.night.CarriedVehicle.Mark;
import borecensus.packed.ByteReader;
import borecensus.packed.IdTable;
import java.util.Arrays;
import java.util.Iterator;

/**
 * What the night before has handed on of the vehicles of a section, in the order of their ids. Of
 * most of them no more than a mark is ever looked at, so that a value is made only when it is asked
 * for.
 */
final class CarriedVehicles {
  private final IdTable ids = new IdTable();
  private byte[][] blocks = new byte[1024][];
  private int[] places = new int[1024];
  private long[] marks = new long[1024];
  private long[] lostHashes = new long[1024];

  CarriedVehicles(Iterator<byte[]> blocks) {
    while (blocks.hasNext()) {
      byte[] block = blocks.next();
      ByteReader in = new ByteReader(block);
      while (in.hasMore()) {
        find(block, in);
      }
    }
  }

  private void find(byte[] block, ByteReader in) {
    int from = in.position();
    int idLength = (int) in.count() - 1;
    int vehicle = ids.add(block, in.position(), idLength);
    in.skip(idLength);
    if (vehicle == marks.length) {
      blocks = Arrays.copyOf(blocks, 2 * vehicle);
      places = Arrays.copyOf(places, 2 * vehicle);
      marks = Arrays.copyOf(marks, 2 * vehicle);
      lostHashes = Arrays.copyOf(lostHashes, 2 * vehicle);
    }
    blocks[vehicle] = block;
    places[vehicle] = from;
    marks[vehicle] = in.count();
    lostHashes[vehicle] = in.whole();
    in.skipBytes();
    HistoryCounts.skip(in);
    in.real();
  }

  int size() {
    return ids.size();
  }

  /** The number of a vehicle, from 0 in the order of ids; negative when it is not among them. */
  int find(byte[] bytes, int from, int length) {
    return ids.find(bytes, from, length);
  }

  int find(String vehicleId) {
    return ids.find(vehicleId);
  }

  /** Compares the id of a vehicle with another in UTF-8, by their bytes. */
  int compareId(int vehicle, byte[] utf8) {
    return ids.compare(vehicle, utf8);
  }

  boolean is(int vehicle, Mark mark) {
    return (marks[vehicle] & mark.bit()) != 0;
  }

  /** Of the records that a vehicle has lost to others; 0 for none. */
  long lostHash(int vehicle) {
    return lostHashes[vehicle];
  }

  /** All that is known of a vehicle. */
  CarriedVehicle get(int vehicle) {
    return CarriedVehicle.read(new ByteReader(blocks[vehicle], places[vehicle]));
  }
}
