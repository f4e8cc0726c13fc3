package borecensus.evaluate;

/** How the families of a fleet wear. */
enum WearShape {
  /** A gentle wave about a straight fall. */
  SMOOTH,
  /** The same with a bend, after which wear is fast. */
  BENT
}
