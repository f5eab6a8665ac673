#!/bin/sh
# permute.sh BUILD - a million shuffles of 40 rows in eight groups, against coin.
set -eu
exec sh bench/pair.sh "$1" permute 3
