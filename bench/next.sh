#!/bin/sh
# next.sh BUILD - `next` on the demo book, seven mixes to choose from and fifty
# plans weighed: the whole command, median of five, and the Monte Carlo errors
# of what it prints.  The target is under 5 s.
set -eu
program=$1/foamwright
[ -x "$program" ] || program=$1/src/cli/foamwright
ninja -C "$1" bench/next_gain >/dev/null
"$1/bench/next_gain"
book=$(mktemp -u).book
answer=$(mktemp)
trap 'rm -f "$book" "$answer"' EXIT
"$program" new "$book" >/dev/null
"$program" import "$book" demo >/dev/null
run() {
	"$program" next "$book" --among B,P,F,W,Q,G,L --batch-cost 18 --json
}
for i in 1 2 3 4 5; do
	start=$(date +%s%N)
	run >"$answer"
	end=$(date +%s%N)
	echo $(((end - start) / 1000))
done | sort -n | sed -n '3s/.*/next, 7 mixes, whole command: & us (median of 5)/p'
bash -c 'TIMEFORMAT="one run: %R s wall, %U s of processor"
	time "$0" next "$1" --among B,P,F,W,Q,G,L --batch-cost 18 >/dev/null' \
	"$program" "$book" 2>&1
tr '{' '\n' <"$answer" | awk '
function value(key,   at) {
	at = index($0, "\"" key "\": ")
	return at ? substr($0, at + length(key) + 4) + 0 : 0
}
/"gain_error"/ {
	n++
	if (value("gain_error") > most) most = value("gain_error")
	if (value("p_wrong_error") > most_p) most_p = value("p_wrong_error")
}
END {
	printf "plans weighed: %d; Monte Carlo error of a gain at most %.2g (log scale), of a chance %.2g\n", n, most, most_p
}'
