#!/bin/sh
# variance.sh BUILD - 100,000 rows in 25,000 batches: lme4 fits, ours fits and profiles both intervals.
set -eu
exec sh bench/pair.sh "$1" variance 5
