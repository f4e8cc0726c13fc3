package borecensus.intake;

import borecensus.domain.Limits;
import borecensus.tabular.TableHeader;

/**
 * Where the cells of each cylinder stand in one sheet file, looked up once for all its records.
 * Cylinders count from 1.
 */
final class CylinderColumns {
  private final int[] index = new int[Limits.MAX_CYLINDERS];
  private final String[] names = new String[Limits.MAX_CYLINDERS];
  private final int last;

  /**
   * The columns of a header.
   *
   * @param prefix what stands before the number of the cylinder
   */
  CylinderColumns(TableHeader header, String prefix) {
    int highest = 0;
    for (int i = 0; i < index.length; i++) {
      names[i] = prefix + (i + 1);
      index[i] = header.indexOf(names[i]);
      highest = index[i] == TableHeader.ABSENT ? highest : i + 1;
    }
    last = highest;
  }

  /** Column of a cylinder; {@link TableHeader#ABSENT} when the file has none. */
  int indexOf(int cylinder) {
    return index[cylinder - 1];
  }

  /** The name of a cylinder's column, whether the file has it or not. */
  String nameOf(int cylinder) {
    return names[cylinder - 1];
  }

  /** The highest cylinder that has a column; 0 when none has. */
  int last() {
    return last;
  }

  /** The highest cylinder for which a record of so many cells has a cell. */
  int reached(int cells) {
    int cylinder = last;
    while (cylinder > 0 && !stands(cylinder, cells)) {
      cylinder--;
    }
    return cylinder;
  }

  private boolean stands(int cylinder, int cells) {
    return indexOf(cylinder) != TableHeader.ABSENT && indexOf(cylinder) < cells;
  }
}
