#!/bin/sh
# demo.sh BUILD - what the main commands take on the demo book: medians of five.
set -eu
program=$1/foamwright
book=$(mktemp -u).book
trap 'rm -f "$book"' EXIT
"$program" new "$book" >/dev/null
"$program" import "$book" demo >/dev/null
median() {
	for i in 1 2 3 4 5; do
		start=$(date +%s%N)
		"$@" >/dev/null
		end=$(date +%s%N)
		echo $(((end - start) / 1000))
	done | sort -n | sed -n 3p
}
echo "--version: $(median "$program" --version) us"
echo "show batches: $(median "$program" show "$book" batches) us"
echo "compare: $(median "$program" compare "$book") us"
echo "choose: $(median "$program" choose "$book") us"
