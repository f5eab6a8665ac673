#!/bin/sh
# calibration_plots.sh BUILD - runs the calibration of the hierarchical model and
# draws docs/statistics/sbc_ranks.svg and coverage.svg from it.
set -eu
build=$1
out=docs/statistics
csv=$(mktemp)
trap 'rm -f "$csv"' EXIT
mkdir -p "$out"
ninja -C "$build" tests/stats_slow_hierarchy_sbc >/dev/null
FOAMWRIGHT_SBC_CSV=$csv FOAMWRIGHT_SOURCE=$PWD \
	"$build/tests/stats_slow_hierarchy_sbc"
awk -v ranks="$out/sbc_ranks.svg" -v coverage="$out/coverage.svg" \
	-f tools/calibration_plots.awk "$csv"
