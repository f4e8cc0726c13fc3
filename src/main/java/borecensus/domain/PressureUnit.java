package borecensus.domain;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * The pressure units that dials carry.
 *
 * <p>Factors to the kilopascal are those of NIST Special Publication 811 (2008), appendix B.8: psi
 * 6.894 757, bar 100, kilogram-force per square centimetre 98.066 5 (exact). The psi factor is
 * carried to double precision from its definition, 4.448 221 615 260 5 N on 6.451 6 cm2.
 */
public enum PressureUnit {
  PSI("psi", 4.4482216152605 / 0.64516, 5.0),
  KPA("kpa", 1.0, 20.0),
  BAR("bar", 100.0, 0.2),
  MPA("mpa", 1000.0, 0.02),
  KGF_CM2("kgf_cm2", 98.0665, 0.2);

  private static final EnumCodes<PressureUnit> CODES =
      new EnumCodes<>(values(), PressureUnit::code);

  /** Spellings seen on sheets that can mean nothing else; lower case. */
  private static final Map<String, PressureUnit> SPELLINGS =
      Map.of(
          "kgf/cm2", KGF_CM2,
          "kgf/cm²", KGF_CM2,
          "kg/cm2", KGF_CM2,
          "kg/cm²", KGF_CM2,
          "lbf/in2", PSI,
          "psig", PSI);

  private final String code;
  private final double kpaPerUnit;
  private final double usualResolution;

  PressureUnit(String code, double kpaPerUnit, double usualResolution) {
    this.code = code;
    this.kpaPerUnit = kpaPerUnit;
    this.usualResolution = usualResolution;
  }

  /** The word used in files. */
  public String code() {
    return code;
  }

  /** How many kilopascal one of this unit is. */
  public double kpaPerUnit() {
    return kpaPerUnit;
  }

  /**
   * The step to which a dial in this unit is usually read, in this unit; used when the gauge
   * register does not say (common practice, no source).
   */
  public double usualResolution() {
    return usualResolution;
  }

  /** Converts a value in this unit to kilopascal. */
  public double toKpa(double value) {
    return value * kpaPerUnit;
  }

  /** Converts kilopascal to this unit. */
  public double fromKpa(double kpa) {
    return kpa / kpaPerUnit;
  }

  /** Reads a unit from a sheet, in any case; empty when it is none of ours. Never guesses. */
  public static Optional<PressureUnit> of(String text) {
    Optional<PressureUnit> byCode = CODES.find(text);
    return byCode.isPresent()
        ? byCode
        : Optional.ofNullable(SPELLINGS.get(text.strip().toLowerCase(Locale.ROOT)));
  }
}
