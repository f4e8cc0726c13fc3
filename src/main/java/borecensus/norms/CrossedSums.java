package borecensus.norms;

/**
 * The sums over engines that the crossed model needs; adding engines in any split gives the same.
 */
final class CrossedSums {
  final double[] information;
  final double[][] coupling;
  private final double[] familyScore;
  private final double[][] gaugeInformation;
  private final double[] gaugeScore;

  CrossedSums(int families, int gauges) {
    information = new double[families];
    coupling = Zeros.of(families, gauges);
    familyScore = new double[families];
    gaugeInformation = Zeros.square(gauges);
    gaugeScore = new double[gauges];
  }

  void add(CrossedBlock engine) {
    double[] q = coupling[engine.family()];
    for (int t = 0; t < engine.values().length; t++) {
      for (int u = 0; u < engine.values().length; u++) {
        double w = engine.precision()[t][u];
        information[engine.family()] += w;
        familyScore[engine.family()] += w * engine.values()[u];
        for (int effect : engine.effects()[t]) {
          q[effect] += w;
          gaugeScore[effect] += w * engine.values()[u];
          for (int other : engine.effects()[u]) {
            gaugeInformation[effect][other] += w;
          }
        }
      }
    }
  }

  double[][] absorbed(double[] variances) {
    int n = gaugeScore.length;
    double[][] matrix = new double[n][];
    for (int g = 0; g < n; g++) {
      matrix[g] = gaugeInformation[g].clone();
      matrix[g][g] += 1 / variances[g];
    }
    for (int f = 0; f < information.length; f++) {
      if (information[f] > 0) {
        subtractProduct(matrix, coupling[f], information[f]);
      }
    }
    return matrix;
  }

  private static void subtractProduct(double[][] matrix, double[] q, double s) {
    for (int g = 0; g < q.length; g++) {
      if (q[g] != 0) {
        for (int h = 0; h < q.length; h++) {
          matrix[g][h] -= q[g] * q[h] / s;
        }
      }
    }
  }

  double[] absorbedScore() {
    double[] score = gaugeScore.clone();
    for (int f = 0; f < information.length; f++) {
      for (int g = 0; g < score.length; g++) {
        score[g] -= coupling[f][g] == 0 ? 0 : coupling[f][g] * familyScore[f] / information[f];
      }
    }
    return score;
  }

  double[] familyMeans(double[] offsets) {
    double[] means = new double[information.length];
    for (int f = 0; f < means.length; f++) {
      double score = familyScore[f];
      for (int g = 0; g < offsets.length; g++) {
        score -= coupling[f][g] * offsets[g];
      }
      means[f] = information[f] > 0 ? score / information[f] : Double.NaN;
    }
    return means;
  }
}
