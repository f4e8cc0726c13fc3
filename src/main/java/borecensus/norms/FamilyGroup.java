package borecensus.norms;

import borecensus.domain.Family;

/** Which families are alike: those of one fuel and one number of cylinders. */
final class FamilyGroup {
  private FamilyGroup() {}

  /** The name of the family's group. */
  static String of(Family family) {
    return family.fuel().code() + "/" + family.cylinders();
  }
}
