#!/bin/sh
# fuzz.sh [SECONDS] | --keep - libFuzzer at the questions of `calc`, see
# tests/fuzz/README.md.
set -eu
build=build-fuzz
kept=tests/fuzz/corpus
largest=1500 # bytes of one input
if [ ! -f "$build/build.ninja" ]; then
	CC=clang-14 CFLAGS='-fsanitize=fuzzer-no-link,float-cast-overflow -fno-sanitize-recover=all' \
		meson setup "$build" -Dtests=false -Dfuzz=true -Dwerror=false \
		-Db_sanitize=address,undefined -Db_lundef=false >"$build.log" 2>&1 ||
		{ cat "$build.log"; exit 1; }
	rm -f "$build.log"
fi
ninja -C "$build" --quiet tests/fuzz/fuzz_calc src/cli/foamwright
mkdir -p "$build/corpus" "$build/found"
fuzzer=$build/tests/fuzz/fuzz_calc
export UBSAN_OPTIONS=print_stacktrace=1
if [ "${1:-}" = --keep ]; then
	mkdir -p "$build/least"
	rm -f "$build"/least/*
	"$fuzzer" -merge=1 -max_len="$largest" "$build/least" "$kept" \
		"$build/corpus" >"$build/merge.log" 2>&1
	rm -f "$kept"/*
	cp "$build"/least/* "$kept"
	exit 0
fi
# Every example is a beginning.
"$build/src/cli/foamwright" calc | while read -r name rest; do
	{
		echo "$name"
		"$build/src/cli/foamwright" calc "$name" --help |
			sed -n "s/^  echo '\(.*\)' | foamwright calc .*/\1/p"
	} >"$build/corpus/example-$name"
done
nice -n 15 "$fuzzer" -max_total_time="${1:-600}" -max_len="$largest" \
	-len_control=20 -timeout=60 -rss_limit_mb=3000 -dict=tests/fuzz/calc.dict \
	-artifact_prefix="$build/found/" -print_final_stats=1 \
	"$build/corpus" "$kept"
