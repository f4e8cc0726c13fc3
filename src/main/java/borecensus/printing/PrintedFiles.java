package borecensus.printing;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;

/**
 * The folder of a printing: {@value #PAGES}, {@value #ALL_ROWS}, and in {@value #SINGLE_ROWS} a
 * file of one row per page, named by its test number, for workshops that hand sheets in one by one.
 */
final class PrintedFiles {
  static final String PAGES = "sheets.html";
  static final String ALL_ROWS = "sheets.csv";
  static final String SINGLE_ROWS = "single";

  private final Path folder;

  PrintedFiles(Path folder) {
    this.folder = folder;
  }

  /** Writes all files; never over an existing one, into which somebody may have typed. */
  void write(List<SheetPage> pages, Printing printing) throws IOException {
    Files.createDirectories(folder);
    try (Writer html =
        Files.newBufferedWriter(
            folder.resolve(PAGES), StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW)) {
      SheetsHtml.write(pages, printing, html);
    }
    rows(folder.resolve(ALL_ROWS), pages);
    Path single = Files.createDirectories(folder.resolve(SINGLE_ROWS));
    for (SheetPage page : pages) {
      rows(single.resolve(page.testId() + ".csv"), List.of(page));
    }
  }

  private static void rows(Path file, List<SheetPage> pages) throws IOException {
    try (OutputStream out =
        new BufferedOutputStream(Files.newOutputStream(file, StandardOpenOption.CREATE_NEW))) {
      SheetsCsv.write(pages, out);
    }
  }
}
