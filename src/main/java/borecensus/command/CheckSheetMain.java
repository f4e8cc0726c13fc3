package borecensus.command;

/** The bay's command by itself: it starts faster where no other command is looked at. */
public final class CheckSheetMain {
  private CheckSheetMain() {}

  public static void main(String[] args) {
    System.exit(Main.run(new CheckSheetCommand(), args));
  }
}
