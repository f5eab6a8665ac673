#!/bin/sh
# check_web.sh PROGRAM [GROUP...] - the pages in a real browser; ends with "N
# passed, N failed".  All groups go in two runs side by side, each with a book
# of its own: what reads every page, and what writes.  Says "skipped" where there
# is no Node that is new enough.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
shift
major=$(node --version 2>/dev/null | sed 's/^v\([0-9]*\).*/\1/')
if [ "${major:-0}" -lt 20 ]; then
	echo "skipped: the browser tests need Node 20 or newer; this machine has ${major:-none}"
	exit 77
fi
cd "$root/tests/web-browser"
[ -d node_modules/playwright-core ] || npm ci --no-audit --no-fund --loglevel=error
export FOAMWRIGHT="$program" FOAMWRIGHT_DEMO="$root/demo"
[ $# -eq 0 ] || exec node run.mjs "$@"

logs=$(mktemp -d)
trap 'rm -rf "$logs"' EXIT
node run.mjs writing 2>&1 | tee "$logs/writing" &
node run.mjs reading 2>&1 | tee "$logs/reading"
wait
# each ends with its count; one that has none fell over
total=$(for log in "$logs/reading" "$logs/writing"; do
	tail -n 1 "$log" | grep -E '^[0-9]+ passed, [0-9]+ failed$' ||
		echo '0 passed, 1 failed'
done | awk '{ passed += $1; failed += $3 }
	END { print passed " passed, " failed " failed" }')
echo "$total"
case $total in *', 0 failed') ;; *) exit 1 ;; esac
