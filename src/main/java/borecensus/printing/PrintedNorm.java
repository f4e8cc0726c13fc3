package borecensus.printing;

import java.util.List;

/**
 * A family's published norm, as far as a sheet needs it.
 *
 * @param meter what the family's usage is counted in
 * @param engines how many engines it rests on
 * @param grid by rising usage; never empty
 * @param positions factor of each cylinder position, cylinder 1 first, their geometric mean 1;
 *     empty when no test tells them
 */
record PrintedNorm(UsageMeter meter, long engines, List<NormPoint> grid, List<Double> positions) {

  PrintedNorm {
    grid = List.copyOf(grid);
    positions = List.copyOf(positions);
  }

  /** The norm at a usage; beyond the grid its end; of NaN its middle point. */
  NormPoint at(double usage) {
    if (Double.isNaN(usage)) {
      return grid.get(grid.size() / 2);
    }
    for (int i = 0; i < grid.size(); i++) {
      NormPoint point = grid.get(i);
      if (usage <= point.usage()) {
        return i == 0 ? point : grid.get(i - 1).towards(point, usage);
      }
    }
    return grid.get(grid.size() - 1);
  }

  /** The factor of a cylinder's position, cylinders counted from 1; 1 where it is not known. */
  double position(int cylinder) {
    return cylinder <= positions.size() ? positions.get(cylinder - 1) : 1;
  }
}
