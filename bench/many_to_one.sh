#!/bin/sh
# many_to_one.sh BUILD - eight groups against a baseline, 40 rows, exact, against multcomp.
set -eu
exec sh bench/pair.sh "$1" many_to_one 10
