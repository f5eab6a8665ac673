#!/bin/sh
# fresh.sh BUILD [ROUNDS] - every page of the demo book, its pictures among them,
# the first time after a change of the book, as a person meets it who writes
# something down and goes on: after a weighing of foam, which no estimate rests
# on, and after a beam's depth was corrected, which bending strength rests on.
# The target: under 20 ms at the median of any page.  The memory of the server is
# said before and after, since what it keeps of former answers has a limit.
set -eu
build=$1
rounds=${2:-5}
program=$build/src/cli/foamwright
ninja -C "$build" --quiet bench/fresh
. "$(dirname "$0")/serving.sh"

book=$folder/a.book
"$program" new "$book" >/dev/null
"$program" import "$book" demo >/dev/null
"$program" generator "$book" G1 --metering seconds --target '70 g/L' \
	--vessel '10 L' --vessel-empty '0.6 kg' --scale-step '5 g' \
	--rate '25 L/min' >/dev/null
"$program" gear "$book" --mixer '90 L' >/dev/null
start_server "$book"
port=${home##*:}

pages='/today /due /materials /mixes /mix/D /trial /mixer /batch/01
	/photos/01 /foam/G1 /gear /bench /piece/01-B-1 /piece/01-B-p1
	/measure/01-B-1 /label/01-B-1 /labels/01 /results /compare /next
	/choose /design?part=floor /tradeoff/wall-w /building /duty /part/floor
	/screen /pour /plan /watch /record /search?words=B /import /words
	/today.json /compare.csv'
# The pictures that these pages show.
pictures=$(for page in $pages; do curl -s "$home$page"; done |
	grep -o '/chart/[^"]*' | sed 's/&amp;/\&/g' | sort -u)

for kind in foam piece; do
	before=$(memory_kb)
	echo "after a change of kind $kind, $rounds rounds"
	"$build/bench/fresh" "$server" 127.0.0.1 "$port" "$book" "$kind" \
		"$rounds" $pages $pictures
	echo "  server $before kB before, $(memory_kb) kB after"
done
