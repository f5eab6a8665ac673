#!/bin/sh
# censored.sh BUILD - interval-censored lognormal regression on 100,000 rows in
# 7 groups against survreg of R's survival, which gives estimates, errors and
# log-likelihood; ours without and with its profile intervals.  Medians of five
# fits, data already in memory in both.
set -eu
build=$1
ninja -C "$build" bench/censored >/dev/null
data=$(mktemp)
trap 'rm -f "$data"' EXIT
for kind in steps free; do
	Rscript bench/censored.R make "$kind" "$data"
	ours=$("$build/bench/censored" "$data")
	peer=$(Rscript bench/censored.R fit "$data")
	echo "$kind $ours $peer" | awk '{
		printf "bounds %s: 100000 rows, %d different; survreg %.4f s\n",
			($1 == "steps" ? "on steps of 40" : "all different"),
			$2, $8
		printf "  the same from ours %.4f s, ratio %.1f; with profile " \
			"intervals too %.4f s, ratio %.1f\n",
			$3, $8 / $3, $4, $8 / $4
		printf "  first mean %s and %s, scale %s and %s, " \
			"log-likelihood %s and %s\n",
			$5, $9, $6, $10, $7, $11
	}'
done
