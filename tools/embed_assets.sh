#!/bin/sh
# embed_assets.sh FILE... - the files of src/web/static as C: the style, which
# stands in each page, and the rest at their addresses, which hold a digest of
# the content where a page names them.
set -eu

# Without the tabs that indent a line and without comments, which begin a line
# or end one.
bare() {
	sed 's/^	*//; s; */\*.*\*/$;;; /^$/d' "$1" | sed '/^\/\*/,/\*\/$/d'
}

as_bytes() {
	od -An -v -tu1 | sed 's/ *\([0-9][0-9]*\)/\1,/g'
}

echo '/* Made by tools/embed_assets.sh; not edited. */'
echo '#include "web/assets.h"'
list=
for file in "$@"; do
	base=$(basename "$file")
	name=$(printf '%s' "$base" | tr -c 'a-z0-9' '_')
	case $base in *.css | *.js)
		if bare "$file" | grep -qF '/*'; then
			echo "$file: a comment stands within a line" >&2
			exit 1
		fi ;;
	esac
	case $base in
	*.css)
		if grep -q '<' "$file"; then
			echo "$file: a < would end the style in a page" >&2
			exit 1
		fi
		echo 'const char web_style[] = {'
		bare "$file" | as_bytes
		echo '0};'
		digest=$(bare "$file" | sha256sum | cut -d' ' -f1 | tr a-f A-F |
			basenc -d --base16 | base64)
		echo "const char web_style_digest[] = \"sha256-$digest\";"
		continue ;;
	worker.js) type=text/javascript address=/$base ;;
	*.js)
		type=text/javascript
		address=/static/${base%.js}-$(sha256sum "$file" | cut -c1-12).js
		echo "const char web_asset_script[] = \"$address\";" ;;
	*.svg) type=image/svg+xml address=/static/$base ;;
	*) echo "$file: of what type is it?" >&2; exit 1 ;;
	esac
	echo "static const unsigned char bytes_$name[] = {"
	case $base in *.svg) cat "$file" ;; *) bare "$file" ;; esac | as_bytes
	echo '0};'
	list="$list{\"$address\", \"$type; charset=utf-8\", bytes_$name, sizeof bytes_$name - 1},
"
done
echo 'const struct web_asset web_assets[] = {'
printf '%s' "$list"
echo '{NULL, NULL, NULL, 0}};'
