/**
 * Fleet folders and stores on any file system that Hadoop knows, as Java's own paths: the rest of
 * the project reads and writes them as it does local files. What file systems do differently when
 * something is published stands in {@link borecensus.night.hadoop.HadoopDisk}.
 */
package borecensus.night.hadoop;
