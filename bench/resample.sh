#!/bin/sh
# resample.sh BUILD - 10,000 resamples of 24 values with the BCa interval, against boot.
set -eu
exec sh bench/pair.sh "$1" resample 20
