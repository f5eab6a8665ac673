#!/bin/sh
# demo.sh FOAMWRIGHT - the main job once, on the invented scenario in demo/.
set -eu
program=$1
rm -f demo.book demo.book-journal
say() {
	printf '\n$ foamwright %s\n' "$*"
	"$program" "$@"
}
say new demo.book --name "Workshop and guest house (invented demo)"
say import demo.book demo
say show demo.book mixes
say show demo.book batches
say compare demo.book
say choose demo.book
printf '\nThe record is in demo.book; foamwright --help says what else there is.\n'
