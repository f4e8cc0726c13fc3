package borecensus.tabular;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import net.jqwik.api.constraints.Chars;
import net.jqwik.api.constraints.StringLength;

/** Text of the characters that trouble readers of CSV. */
@Chars({'a', ' ', '"', '\n', ';', '\t', '\u00E9'})
@StringLength(max = 6)
@Retention(RetentionPolicy.RUNTIME)
@Target(ElementType.TYPE_USE)
@interface CsvCell {}
