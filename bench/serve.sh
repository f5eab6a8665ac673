#!/bin/sh
# serve.sh BUILD [BATCHES] [REQUESTS] - the pages of a book of 10,000 test pieces
# under load, by wrk on the same machine with 32 connections: requests a second,
# latency, and the memory of the server at the start and after 500,000 requests.
# The targets: 2,000 a second on two processors, p99 under 50 ms, memory flat.
# The load takes its share of the processors; nothing is subtracted for it.
set -eu
build=$1
batches=${2:-2500}
requests=${3:-500000}
ninja -C "$build" --quiet bench/book_fill
program=$build/src/cli/foamwright
. "$(dirname "$0")/serving.sh"

"$build/bench/book_fill" "$folder/a.book" "$batches"
start_server "$folder/a.book"

# Pages with forms are filled in and packed at each request; the others are kept.
pages='/today /due /mixer /materials /mixes /results /compare /bench /words
	/record /building /pour /watch /trial /batch/B0000007 /mix/M3
	/piece/B0000007-2 /today.json /mixes.csv'
load() { # seconds, address...
	seconds=$1
	shift
	wrk -t1 -c32 -d"${seconds}s" --timeout 60s -s bench/serve.lua "$home" \
		-- "$@" | sed -n 's/^RESULT //p'
}

rounds=0
while :; do
	set -- $(WARM=1 load 5 $pages)
	[ "$5" -gt 0 ] || break
	rounds=$((rounds + 1))
	[ $rounds -lt 60 ] || break
done
echo "  warm after $((5 * rounds + 5)) s, server $(memory_kb) kB"
sum=0
while [ "$sum" -lt "$requests" ]; do
	set -- $(load 20 $pages)
	sum=$((sum + $1))
	printf '  %7d requests: %s a second, p50 %s ms, p99 %s ms, %s errors, %s bytes each, server %s kB\n' \
		"$sum" "$2" "$3" "$4" "$6" "$7" "$(memory_kb)"
done
