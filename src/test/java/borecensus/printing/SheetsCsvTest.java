package borecensus.printing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import borecensus.domain.Fuel;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;

class SheetsCsvTest {

  private static List<String> lines(SheetPage... pages) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    SheetsCsv.write(List.of(pages), out);
    return out.toString(StandardCharsets.UTF_8).replace("\uFEFF", "").lines().toList();
  }

  private static SheetPage page(String vehicleId, int cylinders) {
    return SamplePages.page(vehicleId, SamplePages.family("", cylinders, Fuel.PETROL));
  }

  @Test
  void aFileHasAsManyReadingColumnsAsItsLargestEngineHasCylinders() throws IOException {
    String header = lines(page("V1", 4), page("V2", 6)).get(0);
    assertTrue(header.endsWith("cyl_4,cyl_5,cyl_6"), header);
    assertTrue(header.contains("first_6,cyl_1"), header);
    assertFalse(lines(page("V1", 4)).get(0).contains("cyl_5"));
  }

  @Test
  void whatIsKnownIsFilledInAndTheRestIsLeftEmpty() throws IOException {
    List<String> lines = lines(page("V1", 2));
    assertEquals(
        "test_id,vehicle_id,engine_serial,tested_at,odometer_km,site_id,station_pressure_hpa,"
            + "qnh_hpa,gauge_id,unit,kind,throttle,engine_temp_c,cranking_rpm,strokes,adaptor_id,"
            + "remarks,first_1,first_2,cyl_1,cyl_2",
        lines.get(0));
    assertEquals("S260331-K7Q4-M2X0,V1,NEW-2,,,high-depot,,,G-PSI,psi,dry,,,,,,,,,,", lines.get(1));
  }

  @Test
  void theSerialIsThatOfTheEngineNowInTheVehicleNotTheRegistersOldOne() {
    assertEquals("NEW-2", page("V1", 4).chosen().engineSerial());
    Chosen chosen = page("V1", 4).chosen();
    KnownEngine unnamed = new KnownEngine("V1/engine-2", null, false, false, UsageHistory.NONE, "");
    assertEquals("", new Chosen(chosen.vehicle(), chosen.family(), unnamed, "").engineSerial());
    assertEquals(
        "REG-1",
        new Chosen(chosen.vehicle(), chosen.family(), KnownEngine.UNSEEN, "").engineSerial());
  }

  @Test
  void aFormulaInANameIsNeutralised() throws IOException {
    assertTrue(lines(page("=1+1", 4)).get(1).startsWith("S260331-K7Q4-M2X0,'=1+1,"));
  }
}
