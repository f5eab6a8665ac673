#!/bin/sh
# embed_assets.sh FILE... - the files of src/web/static as C arrays, each at an
# address that holds a digest of its content.
set -eu
echo '/* Made by tools/embed_assets.sh; not edited. */'
echo '#include "web/assets.h"'
list=
for file in "$@"; do
	base=$(basename "$file")
	name=$(printf '%s' "$base" | tr -c 'a-z0-9' '_')
	digest=$(sha256sum "$file" | cut -c1-12)
	case $base in
	*.css) type=text/css address=/static/${base%.css}-$digest.css other=web_asset_css ;;
	*.js) type=text/javascript address=/static/${base%.js}-$digest.js other=web_asset_script ;;
	*.svg) type=image/svg+xml address=/static/$base other= ;;
	*) echo "$file: of what type is it?" >&2; exit 1 ;;
	esac
	echo "static const unsigned char bytes_$name[] = {"
	# without the tabs that indent a line
	case $base in *.svg) cat "$file" ;; *) sed 's/^	*//' "$file" ;; esac |
		od -An -v -tu1 | sed 's/ *\([0-9][0-9]*\)/\1,/g'
	echo "0};"
	[ -z "$other" ] || echo "const char $other[] = \"$address\";"
	list="$list{\"$address\", \"$type; charset=utf-8\", bytes_$name, sizeof bytes_$name - 1},
"
done
echo 'const struct web_asset web_assets[] = {'
printf '%s' "$list"
echo '{NULL, NULL, NULL, 0}};'
