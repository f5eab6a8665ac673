#!/bin/sh
# demo.sh FOAMWRIGHT - the main job once, on the invented scenario in demo/.
set -eu
program=$1
book=demo.book
rm -f "$book" "$book-journal"

# What the step is for, then the command as it can be typed, then its answer.
step() {
	printf '\n== %s\n' "$1"
	shift
	printf '$ %s' "$program"
	for word in "$@"; do
		case $word in
		*[!A-Za-z0-9./_-]*) printf ' "%s"' "$word" ;;
		*) printf ' %s' "$word" ;;
		esac
	done
	printf '\n'
	"$program" "$@"
}

printf 'The main job, on an invented building site; no figure was measured.\n'
step "One file holds the whole job: the book" \
	new "$book" --name "Workshop and guest house (invented demo)"
step "A folder of readings goes into it, all of it or nothing" \
	import "$book" demo
step "The mixes, and how many test pieces were cast, tested, snapped" \
	show "$book" mixes
step "The batches; what does not count, and by which rule set beforehand" \
	show "$book" batches
step "Every mix against the baseline, and how sure that is" \
	compare "$book"
step "What to cast next to be surer of the strongest, and with which weights" \
	next "$book"
step "Which mix goes where, how sure, and what it takes" \
	choose "$book"
cat <<END

The record is in $book. Go on with, for example
  $program compare $book --measure dent
  $program decide $book floor D --because "meets both, and repeated once"
  $program serve $book --port 0
  $program --help
The same job by hand: docs/first-book.md; from an empty book: docs/at-the-mixer.md
END
