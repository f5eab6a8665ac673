#!/bin/sh
# check_web.sh PROGRAM - the pages in a real browser; ends with "N passed, N
# failed".  Says "skipped" where there is no Node that is new enough.
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
FOAMWRIGHT=$program FOAMWRIGHT_DEMO=$root/demo exec node run.mjs "$@"
