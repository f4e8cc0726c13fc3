# Sourced by every command under jobs/: builds on first use, then starts Java on the built tree.
# Nothing here writes to standard output, which belongs to the commands' results.
set -eu

home=$(CDPATH= cd -- "$(dirname -- "$0")/.." && pwd)
jar="$home/target/borecensus.jar"
jars="$home/target/jars"
archive="$home/target/borecensus.jsa"

fail() {
  printf '%s\n' "$1" >&2
  exit 1
}

java_command() {
  if [ -n "${JAVA_HOME:-}" ] && [ -x "$JAVA_HOME/bin/java" ]; then
    printf '%s\n' "$JAVA_HOME/bin/java"
  else
    command -v java || fail "a Java development kit, 17 or newer, is needed: java was not found"
  fi
}

stale() {
  [ ! -f "$jar" ] || [ ! -d "$jars" ] ||
    [ -n "$(find "$home/pom.xml" "$home/src/main" "$home/seeds" -newer "$jar" -print 2>/dev/null | head -n 1)" ]
}

build_if_needed() {
  stale || return 0
  command -v mvn >/dev/null || fail "Apache Maven is needed for the first build: mvn was not found"
  printf 'Building on first use (a few minutes when libraries must be fetched) ...\n' >&2
  log=$(mktemp)
  # Two commands at once must not build into one folder.
  if command -v flock >/dev/null; then
    (cd "$home" && mkdir -p target && flock target/.build-lock mvn -B -q -ntp -Dmaven.test.skip=true package) >"$log" 2>&1 ||
      { cat "$log" >&2; rm -f "$log"; fail "the build failed"; }
  else
    (cd "$home" && mvn -B -q -ntp -Dmaven.test.skip=true package) >"$log" 2>&1 ||
      { cat "$log" >&2; rm -f "$log"; fail "the build failed"; }
  fi
  rm -f "$log"
}

# Spark on Java 17 and newer reaches into these packages of the platform (pom.xml has the same list).
opens() {
  for package in java.lang java.lang.invoke java.io java.net java.nio java.util \
    java.util.concurrent java.util.concurrent.atomic sun.nio.ch sun.nio.cs sun.security.action \
    sun.util.calendar; do
    printf -- '--add-opens=java.base/%s=ALL-UNNAMED ' "$package"
  done
}

# asks_for_help ARG ...: whether a command will say how it is used and do nothing else.
asks_for_help() {
  for argument in "$@"; do
    case "$argument" in -h | --help | -V | --version) return 0 ;; esac
  done
  return 1
}

# Names the jars one by one and in one order: the archive below holds for just this class path.
class_path() {
  printf '%s' "$jar"
  LC_ALL=C
  for file in "$jars"/*.jar; do
    printf ':%s' "$file"
  done
}

# What a small night is told beyond its own options: compiling queries to Java costs it more than
# running them does, and there is nothing to adapt to in a handful of rows.
small_night() {
  printf '%s\n' --conf spark.sql.codegen.wholeStage=false \
    --conf spark.sql.codegen.factoryMode=NO_CODEGEN --conf spark.sql.adaptive.enabled=false
}

# Java for a large fleet: a fifth of a night's processor time went to the optimising compiler, which
# shares the processors with the work, and to the collector that keeps pauses short, which nobody
# waits for. And the heap begins as large as it may become: to grow it, all of it was collected
# several times.
large_fleet_java="-XX:+UseParallelGC -XX:InitialRAMPercentage=100"

# So in a night of minutes code is optimised only once it has run four times as often as Java would
# ask for, with less of what it calls built into it (calls nine deep in place of fifteen, and only
# such as came out short): a quarter less to optimise, and no slower for it.
full_night_java="$large_fleet_java -XX:Tier4InvocationThreshold=20000 \
-XX:Tier4MinInvocationThreshold=2400 -XX:Tier4CompileThreshold=60000 -XX:Tier4BackEdgeThreshold=160000 \
-XX:MaxInlineLevel=9 -XX:InlineSmallCode=1500"

# A night that builds on the one before is over before optimising pays: measured, it takes two
# thirds of the processor time without. ChildProcess.java of the benchmark has the same.
night_after_java="$large_fleet_java -XX:TieredStopAtLevel=1 -XX:ReservedCodeCacheSize=240m"

# java_run CLASS-PATH ARG ...: Java on the built tree in this process's place. Where the build left
# an archive of the classes' inner form (jobs/archive-classes), starting takes a third less; an
# archive that does not fit is passed over in silence.
java_run() {
  java=$(java_command)
  path=$1
  shift
  if [ -z "${SPARK_MASTER_URL:-}" ]; then
    SPARK_LOCAL_IP=${SPARK_LOCAL_IP:-127.0.0.1}
    export SPARK_LOCAL_IP
  fi
  # shellcheck disable=SC2046,SC2086
  exec "$java" -XX:+IgnoreUnrecognizedVMOptions $(opens) -Dfile.encoding=UTF-8 \
    -Djava.awt.headless=true -Dborecensus.home="$home" -Xshare:auto -Xlog:disable \
    ${BORECENSUS_JAVA_OPTS:-} -cp "$path" "$@"
}

# run COMMAND [ARG ...]: starts one command. Help needs the command line alone: with the other
# libraries on the class path Java would open every one of them. The archive is taken at the address
# that it was made for: to move it elsewhere, Java reads all of it.
run() {
  build_if_needed
  if asks_for_help "$@"; then
    BORECENSUS_JAVA_OPTS="-XX:TieredStopAtLevel=1 -XX:+UseSerialGC"
    java_run "$jar:$(echo "$jars"/picocli-*.jar)" borecensus.command.Main "$@"
  fi
  if [ -f "$archive" ]; then
    BORECENSUS_JAVA_OPTS="-XX:SharedArchiveFile=$archive -XX:+UnlockDiagnosticVMOptions \
-XX:ArchiveRelocationMode=0 ${BORECENSUS_JAVA_OPTS:-}"
  fi
  java_run "$(class_path)" borecensus.command.Main "$@"
}
