#!/bin/sh
# check_layers.sh ROOT - reads every include under ROOT/src and fails on one
# that tools/layers.txt does not allow, and on a folder it does not list.
set -eu
cd "$1"
git_or_find() { find src -name '*.[ch]' | sort; }
git_or_find | xargs awk '
function allowed(from, to, file,   i, n, word) {
	if (from == to) return 1
	n = split(may[from], word, " ")
	for (i = 1; i <= n; i++)
		if (word[i] == to || word[i] == file) return 1
	return 0
}
BEGIN {
	while ((getline line < "tools/layers.txt") > 0) {
		if (line ~ /^#/ || line !~ /:/) continue
		split(line, half, ":")
		may[half[1]] = half[2]
		known[half[1]] = 1
	}
}
FNR == 1 {
	split(FILENAME, step, "/")
	from = step[2]
	if (!(from in known)) { print FILENAME ": folder not in tools/layers.txt"; bad++ }
}
/^[ \t]*#[ \t]*include[ \t]*"/ {
	split($0, quote, "\"")
	seen++
	split(quote[2], part, "/")
	if (!allowed(from, part[1], quote[2])) {
		print FILENAME ":" FNR ": " from " may not include " quote[2]
		bad++
	}
	next
}
from != "book" && /#[ \t]*include[ \t]*<(sqlite3|csv)\.h>/ {
	print FILENAME ":" FNR ": only book speaks to SQLite and libcsv"; bad++
}
from !~ /^(book|work)$/ && /(SELECT|INSERT INTO|UPDATE|DELETE FROM) [a-z_*]+/ && /"/ {
	print FILENAME ":" FNR ": SQL outside book"; bad++
}
END {
	if (seen < 20) { print "only " seen " includes read: the check itself is broken"; exit 1 }
	if (bad) exit 1
	print seen " includes, all allowed"
}'
