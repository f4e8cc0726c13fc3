package borecensus.domain;

/** Bounds that hold everywhere. */
public final class Limits {
  private Limits() {}

  /** The most cylinders that a sheet has columns for. */
  public static final int MAX_CYLINDERS = 16;

  /** Ambient pressure to which readings are brought: the ISO 2533 sea-level value. */
  public static final double REFERENCE_AMBIENT_HPA = 1013.25;
}
