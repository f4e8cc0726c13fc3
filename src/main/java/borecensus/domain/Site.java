package borecensus.domain;

import java.io.Serializable;

/**
 * A place where engines are tested.
 *
 * @param elevationM metres above mean sea level
 */
public record Site(String siteId, double elevationM) implements Serializable {}
