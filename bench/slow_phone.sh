#!/bin/sh
# slow_phone.sh BUILD - the first page on an emulated slow phone; the target: it
# can be used within 1 s.  Needs Node 20 and chromium, as the browser tests do.
set -eu
build=$(cd "$1" && pwd)
root=$(cd "$(dirname "$0")/.." && pwd)
cd "$root/tests/web-browser"
[ -d node_modules/playwright-core ] ||
	npm ci --no-audit --no-fund --loglevel=error
# a module is looked for beside the script that asks: the harness stands there
FOAMWRIGHT="$build/src/cli/foamwright" FOAMWRIGHT_DEMO="$root/demo" \
	exec node "$root/bench/slow_phone.mjs"
