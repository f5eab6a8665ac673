#!/bin/sh
# book.sh BUILD [BATCHES] - a book of 1,000,000 test pieces in 250,000 batches:
# how fast it fills, opens and pages; what comparing 10,000 and 100,000 pieces
# takes; and what the program costs before it does anything.  Medians of 11.
set -eu
build=$1
batches=${2:-250000}
runs=11
program=$build/src/cli/foamwright
launch=$build/bench/launch
fill=$build/bench/book_fill
ninja -C "$build" --quiet bench/launch bench/book_fill
folder=$(mktemp -d "${TMPDIR:-/var/tmp}/foamwright-bench-XXXXXX")
trap 'rm -rf "$folder"' EXIT

took() { # what, command...
	what=$1
	shift
	set -- $("$launch" "$runs" "$@")
	printf '  %-40s %9s ms (%s to %s), processor %s ms\n' "$what" "$@"
}
at() { printf 'B%07d' "$1"; }

echo "the program itself, beside one that does nothing"
took "/bin/true" /bin/true
took "--version" "$program" --version
took "--help" "$program" --help

echo "a book of four pieces a batch, one reading a piece, one transaction"
"$fill" "$folder/big.book" "$batches" | sed 's/^/  /'
echo "  $(wc -c <"$folder/big.book") bytes"
big=$folder/big.book
took "opened, one batch shown" "$program" show "$big" batches --limit 1
took "batches, first page of 200" "$program" show "$big" batches
took "batches, page from the middle" \
	"$program" show "$big" batches --after "$(at $((batches / 2)))"
took "batches, last page" "$program" show "$big" batches --last
took "pieces, first page of 200" "$program" show "$big" specimens
took "pieces, page from the middle" \
	"$program" show "$big" specimens --after "$(at $((batches / 2)))-2"
took "pieces, last page" "$program" show "$big" specimens --last
runs=3
took "mixes, all pieces counted (median of 3)" "$program" show "$big" mixes
runs=1
took "verify, every digest (once)" "$program" verify "$big"
rm -f "$big"

echo "compare, by size (once each: what it takes is for its own bench to say)"
for n in 2500 25000; do
	"$fill" "$folder/$n.book" "$n" >/dev/null
	took "$((4 * n)) pieces" "$program" compare "$folder/$n.book"
	rm -f "$folder/$n.book"
done

echo "import of the demo folder into a fresh book, and again"
"$program" new "$folder/demo.book" >/dev/null
took "first" "$program" import "$folder/demo.book" demo
took "again, nothing changed" "$program" import "$folder/demo.book" demo
