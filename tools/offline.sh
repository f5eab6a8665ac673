#!/bin/sh
# offline.sh COMMAND... - runs a command where there is no network but loopback.
#
# A name space of its own needs a kernel that permits it; where it does not, this
# says so and runs the command as it is.
set -u
try() { "$@" true 2>/dev/null; }
if try unshare --net; then
	space="unshare --net"
elif try unshare --user --map-root-user --net; then
	space="unshare --user --map-root-user --net"
else
	echo "note: this machine permits no network name space; run with its network"
	exec "$@"
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
	exec "$@"
' sh "$@"
