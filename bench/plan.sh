#!/bin/sh
# plan.sh BUILD - pour plans of invented buildings, with the bound: 6 parts, 40
# lifts and 4 sets of forms (wanted: proven in 30 s), then 20 parts, 200 lifts
# (wanted: within 5 % of the bound in 60 s).  No peer is installed.
set -eu
ninja -C "$1" bench/plan >/dev/null
"$1/bench/plan" 6 40 4 30 1 5
"$1/bench/plan" 20 200 6 60 1 2
