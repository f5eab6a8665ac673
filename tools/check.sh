#!/bin/sh
# check.sh [--slow] BUILD [SANITIZED] - every test, plain where there is no network
# but loopback, and then with the network under the address and undefined-behaviour
# sanitizers; ends with "N passed, N failed".
set -u
suite=fast
if [ "$1" = --slow ]; then
	suite=slow
	shift
fi
passed=0
failed=0

count() {
	ok=$(sed -n 's/^Ok: *\([0-9][0-9]*\).*/\1/p' "$1")
	bad=$(awk '/^(Fail|Unexpected Pass|Timeout): / {n += $NF} END {print n + 0}' "$1")
	passed=$((passed + ${ok:-0}))
	failed=$((failed + bad))
	if [ "${ok:-0}" -eq 0 ] && [ "$bad" -eq 0 ]; then
		echo "no test ran"
		failed=$((failed + 1))
	fi
}

run() { # folder, options
	folder=$1
	shift
	log=$(mktemp)
	if [ -f "$folder/build.ninja" ]; then
		meson configure "$folder" -Dtests=true "$@" >"$log" 2>&1
	else
		meson setup "$folder" -Dtests=true "$@" >"$log" 2>&1
	fi && ninja -C "$folder" >>"$log" 2>&1
	if [ $? -ne 0 ]; then
		tail -n 40 "$log"
		failed=$((failed + 1))
		rm -f "$log"
		return
	fi
	# shellcheck disable=SC2086
	$space meson test -C "$folder" --no-rebuild --suite "$suite" --print-errorlogs 2>&1 | tee "$log"
	count "$log"
	rm -f "$log"
}

space="sh $(dirname "$0")/offline.sh"
run "$1"
ln -sf src/cli/foamwright "$1/foamwright"
if [ "$suite" = fast ]; then
	[ ! -x "$1/tests/stats_test_digits" ] || "$1/tests/stats_test_digits"
	space=
	export ASAN_OPTIONS=detect_leaks=1:abort_on_error=0 UBSAN_OPTIONS=halt_on_error=1:print_stacktrace=1
	# less optimised: built in a third of the time, and no slower to run
	run "$2" -Db_sanitize=address,undefined -Db_lundef=false -Doptimization=1 -Dc_args=-g1
fi
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
