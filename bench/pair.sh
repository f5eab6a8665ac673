#!/bin/sh
# pair.sh BUILD NAME BAR - runs bench/NAME.c and its peer bench/NAME.R on one
# file of data, which the first writes, and prints both medians and their ratio
# beside the ratio that is asked for.  Lines that are no times are passed on.
set -eu
build=$1
name=$2
bar=$3
ninja -C "$build" --quiet "bench/$name" >/dev/null
dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT
"$build/bench/$name" "$dir/data.csv" >"$dir/ours"
Rscript "bench/$name.R" "$dir/data.csv" >"$dir/peer" 2>"$dir/log" ||
	{ cat "$dir/log" >&2; exit 1; }
grep -hv '^time	' "$dir/ours" "$dir/peer" || true
awk -F '\t' -v bar="$bar" '
	$1 != "time" { next }
	FNR == NR { ours[$2] = $3; next }
	$2 in ours {
		printf "%s: ours %.4g s, R %.4g s, ratio %.3g (asked: %s)\n",
			$2, ours[$2], $3, $3 / ours[$2], bar
	}' "$dir/ours" "$dir/peer"
