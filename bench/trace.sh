#!/bin/sh
# trace.sh BUILD [MIB] - 100 MiB of a load cell's trace (time, load, sag) read as
# `foamwright trace` reads it, against `wc -l` and a loop of strtod over the same
# file, one after the other.  The target is a ratio under 1.5.
set -eu
build=$1
mib=${2:-100}
ninja -C "$build" --quiet bench/trace bench/strtod_loop
file=$(mktemp "${TMPDIR:-/var/tmp}/foamwright-trace-XXXXXX")
trap 'rm -f "$file"' EXIT
awk -v most=$((mib * 1048576)) 'BEGIN {
	print "Time (s),Load (N),Sag (mm)"
	n = 27
	for (i = 0; n < most; i++) {
		line = sprintf("%.4f,%.3f,%.5f", i * 0.001,
			2000 * sin(i / 900000) + (i * 7919 % 1000) / 500, i / 70000)
		print line
		n += length(line) + 1
	}
}' >"$file"
now() { date +%s%N; }
run() { # NAME COMMAND...: the least of three runs, in ms
	best=
	for i in 1 2 3; do
		from=$(now)
		"$@" >/dev/null
		took=$((($(now) - from) / 1000000))
		if [ -z "$best" ] || [ "$took" -lt "$best" ]; then
			best=$took
		fi
	done
}
cat "$file" >/dev/null
run wc -l "$file"; wc_ms=$best
run "$build/bench/strtod_loop" "$file"; loop_ms=$best
run "$build/bench/trace" "$file"; trace_ms=$best
"$build/bench/trace" "$file"
echo "wc -l $wc_ms ms, strtod loop $loop_ms ms, trace $trace_ms ms:" \
	"ratio $(awk "BEGIN {printf \"%.2f\", $trace_ms / ($wc_ms + $loop_ms)}")" \
	"(target under 1.5)"
