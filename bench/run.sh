#!/bin/sh
# run.sh BUILD [NAME...] - the benchmarks of bench/list.txt, or those named: each
# NAME is bench/NAME.sh BUILD, which prints sizes, medians and, where there is a
# peer, the ratio to it measured in the same run.
set -eu
build=$1
shift
[ $# -gt 0 ] || set -- $(cat bench/list.txt)
echo "machine: $(uname -m), $(nproc) processors, $(sed -n \
	's/^model name.*: //p' /proc/cpuinfo | head -n 1)"
for name in "$@"; do
	echo
	echo "== $name"
	sh "bench/$name.sh" "$build"
done
