package borecensus.worklist;

import java.util.List;

/**
 * The usual cautions of cranking an engine with a gauge in it. They are general (makers'
 * compression test procedures and common practice) and replace nothing that the maker or local
 * rules say.
 */
public final class Cautions {
  private Cautions() {}

  /** What every output of this program is, and what it is not. */
  public static final String ADVICE_ONLY = "This is advice to inspect, never a clearance to run.";

  /** The cautions, in the order of the work. */
  public static final List<String> ALL =
      List.of(
          "The maker's procedure and limits, local rules and the judgement of qualified staff come"
              + " before anything said here.",
          "Disable fuel and ignition before cranking; injectors may fire when cranked by the key,"
              + " and a diesel cylinder that fires destroys the gauge.",
          "Charge the battery; keep sparks and flames away from it and from fuel vapour, and"
              + " ventilate.",
          "Clear the intake of rags, tape and tools; keep hands, sleeves and leads clear of belts,"
              + " fans and every rotating part.",
          "Mind hot engine parts and hot coolant; wear eye protection.",
          "Hybrid and electric drives: high voltage stays live; only qualified staff may work on"
              + " them.",
          "Use only a gauge and adaptor rated for the engine; the air of a leak-down test can turn"
              + " the engine.",
          "No oil into a cylinder unless the maker allows it for this engine.");
}
