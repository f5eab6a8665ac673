#!/bin/sh
# check_docs.sh ROOT - every docs/... path that sources, tests, tools and pages
# speak of exists, and every page of docs/methods is spoken of somewhere.
set -eu
cd "$1"
paths=$(find src tests tools bench demo docs README.md CONTRIBUTING.md meson.build \
	-type f \( -name '*.[ch]' -o -name '*.md' -o -name '*.sh' -o -name '*.R' \
	-o -name '*.sql' -o -name meson.build \) ! -name check_docs.sh \
	-exec grep -oHE '(^|[^A-Za-z0-9_./-])docs/[A-Za-z0-9_][A-Za-z0-9_./-]*' {} + |
	sed 's/[^A-Za-z0-9_./-]*$//; s/:[^A-Za-z0-9]*docs/:docs/; s/[.]*$//' | sort -u)
n=0
bad=0
IFS='
'
for line in $paths; do
	file=${line%%:*}
	path=${line#*:}
	n=$((n + 1))
	if [ ! -e "$path" ]; then
		echo "$file: there is no $path"
		bad=$((bad + 1))
	fi
done
for page in docs/methods/*.md; do
	if ! grep -rqF "$page" src README.md docs --include='*.[ch]' --include='*.md'; then
		echo "$page: nothing speaks of it"
		bad=$((bad + 1))
	fi
done
if [ "$n" -lt 20 ]; then
	echo "only $n paths read: the check itself is broken"
	exit 1
fi
[ "$bad" -eq 0 ] || exit 1
echo "$n paths into docs, all there"
