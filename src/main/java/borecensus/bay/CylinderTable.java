package borecensus.bay;

import borecensus.domain.PressureUnit;
import borecensus.domain.SheetKind;
import java.util.Locale;

/** The cylinders of a sheet in columns, in the sheet's own unit and in kPa. */
final class CylinderTable {
  private CylinderTable() {}

  static void write(CheckedSheet sheet, TerminalLines lines) {
    PressureUnit unit = sheet.row().unit();
    boolean dry = sheet.judged().test().kind() == SheetKind.DRY;
    String expected = dry ? "expected" : "dry test";
    String name = unit.code();
    if (unit == PressureUnit.KPA) {
      lines.line(
          "%4s %9s %9s %9s %10s", "", "as read", "at ref.", expected, dry ? "off by" : "rise");
      lines.line("%4s %9s %9s %9s", "cyl.", name, name, name);
    } else {
      lines.line(
          "%4s %9s %9s %9s %8s %8s %10s",
          "", "as read", "at ref.", expected, "at ref.", expected, dry ? "off by" : "rise");
      lines.line("%4s %9s %9s %9s %8s %8s", "cyl.", name, name, name, "kPa", "kPa");
    }
    for (CylinderLine cylinder : sheet.cylinders()) {
      lines.line("%s", row(sheet, cylinder));
    }
  }

  private static String row(CheckedSheet sheet, CylinderLine cylinder) {
    PressureUnit unit = sheet.row().unit();
    StringBuilder row = new StringBuilder();
    row.append(String.format(Locale.ROOT, "%4d", cylinder.cylinder()));
    row.append(String.format(" %9s", inUnit(cylinder.gaugeKpa(), unit)));
    row.append(String.format(" %9s", inUnit(cylinder.referenceKpa(), unit)));
    row.append(String.format(" %9s", inUnit(cylinder.expectedKpa(), unit)));
    if (unit != PressureUnit.KPA) {
      row.append(String.format(" %8s", inUnit(cylinder.referenceKpa(), PressureUnit.KPA)));
      row.append(String.format(" %8s", inUnit(cylinder.expectedKpa(), PressureUnit.KPA)));
    }
    double offPct = cylinder.deviationPct();
    row.append(
        Double.isFinite(offPct)
            ? String.format(Locale.ROOT, " %+8.1f %%", offPct)
            : String.format(" %10s", "-"));
    return sheet.judged().suspects().contains(cylinder.cylinder()) ? row + "  <" : row.toString();
  }

  private static String inUnit(double kpa, PressureUnit unit) {
    int decimals =
        switch (unit) {
          case KPA -> 0;
          case PSI -> 1;
          case BAR, KGF_CM2 -> 2;
          case MPA -> 3;
        };
    return Double.isNaN(kpa)
        ? "-"
        : String.format(Locale.ROOT, "%." + decimals + "f", unit.fromKpa(kpa));
  }
}
