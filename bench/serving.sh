# serving.sh - for the benchmarks of the pages, which read it in: a server on a
# folder of its own, gone at the end.  Set `program` before.
folder=$(mktemp -d "${TMPDIR:-/var/tmp}/foamwright-bench-XXXXXX")
server=
finish() {
	[ -z "$server" ] || kill "$server" 2>/dev/null || true
	rm -rf "$folder"
}
trap finish EXIT

# start_server BOOK: sets server (its process) and home (its address).
start_server() {
	"$program" serve "$1" --port 0 >"$folder/said" &
	server=$!
	tries=0
	while ! grep -q / "$folder/said"; do
		tries=$((tries + 1))
		[ $tries -lt 600 ] || exit 1
		sleep 0.1
	done
	home=$(sed -n 's|/$||;1p' "$folder/said")
}

memory_kb() { sed -n 's/^VmRSS:[^0-9]*\([0-9]*\).*/\1/p' "/proc/$server/status"; }
