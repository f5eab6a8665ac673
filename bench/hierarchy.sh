#!/bin/sh
# hierarchy.sh BUILD - effective samples a second of the hierarchical model
# against JAGS on the same censored data and priors (60 rows, 7 mixes, 17
# batches; 4 chains of 5,000): with and without a slope, on one thread and on
# all processors.  The bar is 50 times.  Needs r-cran-rjags.
set -eu
build=$1
data=tests/data/r/inv_beams_censored.csv
draws=$(mktemp)
trap 'rm -f "$draws"' EXIT
ninja -C "$build" bench/hierarchy >/dev/null
for slope in 0 1; do
	for threads in 1 0; do
		echo "slopes: $slope, threads: $threads (0: one a processor)"
		set -- $("$build/bench/hierarchy" "$data" $slope $threads \
			500 5000 "$draws")
		Rscript --vanilla bench/hierarchy.R "$data" $slope "$draws" \
			"$1" "$2" "$3"
	done
done
