#!/bin/sh
# packages.sh STAGE... - installs what packages.txt lists for these stages and
# this machine lacks; says which.  Prints nothing where all is there.
set -eu
list=$(dirname "$0")/../packages.txt
missing=
for stage in "$@"; do
	for name in $(sed -n "s/^$stage //p" "$list"); do
		dpkg-query -W -f='${Status}' "$name" 2>/dev/null |
			grep -q 'ok installed' || missing="$missing $name"
	done
done
[ -n "$missing" ] || exit 0
echo "Installing from Debian:$missing"
as_root=
if [ "$(id -u)" -ne 0 ]; then
	as_root=sudo
	command -v sudo >/dev/null || {
		echo "Run this as root: apt-get install -y --no-install-recommends$missing" >&2
		exit 3
	}
fi
log=$(mktemp)
trap 'rm -f "$log"' EXIT
export DEBIAN_FRONTEND=noninteractive
# shellcheck disable=SC2086 # one word a package
install() {
	$as_root apt-get install -y --no-install-recommends $missing >"$log" 2>&1
}
if ! install; then
	$as_root apt-get update >"$log" 2>&1 || true
	install || {
		tail -n 20 "$log" >&2
		echo "The packages could not be installed; the lines above say why." >&2
		exit 3
	}
fi
