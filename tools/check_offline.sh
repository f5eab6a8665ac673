#!/bin/sh
# check_offline.sh BUILD - the fast tests once more where there is no network but
# loopback.  Nothing is built: what stands in BUILD is run.
#
# A name space of its own needs a kernel that permits it; where it does not, this
# says so and ends with 77 ("skipped", as Meson reads it).
set -u
build=$1
try() { "$@" true 2>/dev/null; }
if try unshare --net; then
	space="unshare --net"
elif try unshare --user --map-root-user --net; then
	space="unshare --user --map-root-user --net"
else
	echo "skipped: this machine permits no network name space"
	exit 77
fi
# shellcheck disable=SC2086
exec $space sh -c '
	ip link set lo up 2>/dev/null ||
		echo "note: no ip command; loopback is down as well"
	others=$(sed -e 1,2d -e "s/:.*//" -e "s/ //g" /proc/net/dev | grep -vx lo)
	if [ -n "$others" ]; then
		echo "there is more than loopback: $others"
		exit 1
	fi
	exec meson test -C "$1" --no-rebuild --suite fast --print-errorlogs
' sh "$build"
