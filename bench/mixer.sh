#!/bin/sh
# mixer.sh BUILD [BATCHES] - the advice at the mixer in a book of a whole house
# (120 batches, 240 foam checks): in memory, which is the job alone, and on the
# disk, which adds what keeping the write costs there.  The target is under 2 ms
# for the job.
set -eu
build=$1
batches=${2:-120}
ninja -C "$build" --quiet bench/mixer
for root in /dev/shm "${TMPDIR:-/var/tmp}"; do
	[ -w "$root" ] || continue
	folder=$(mktemp -d "$root/foamwright-bench-XXXXXX")
	echo "a book of $batches batches under $root"
	"$build/bench/mixer" "$folder" "$batches" || true
	rm -rf "$folder"
done
