#!/bin/sh
# embed_catalogues.sh PO... - each translation, checked and compiled by msgfmt,
# as a C array.
set -eu
mo=$(mktemp)
trap 'rm -f "$mo"' EXIT
echo '/* Made by tools/embed_catalogues.sh; not edited. */'
echo '#include "web/catalogue.h"'
echo '#include <stddef.h>'
list=
for file in "$@"; do
	language=$(basename "$file" .po)
	msgfmt --check --endianness=little -o "$mo" "$file"
	echo "static const unsigned char mo_$language[] = {"
	od -An -v -tu1 "$mo" | sed 's/ *\([0-9][0-9]*\)/\1,/g'
	echo "0};"
	list="$list{\"$language\", mo_$language},
"
done
echo 'const struct web_catalogue web_catalogues[] = {'
printf '%s' "$list"
echo '{NULL, NULL}};'
