#!/bin/sh
# check_words.sh - every text of the pages stands translated in every
# po/LANGUAGE.po; names those that do not.
set -eu
cd "$(dirname "$0")/.."
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
sh tools/make_pot.sh >"$folder/all.pot"
n=$(grep -c '^msgid "' "$folder/all.pot")
if [ "$n" -lt 600 ]; then
	echo "only $n texts found: the check itself is broken"
	exit 1
fi
bad=0
for po in po/*.po; do
	msgfmt --check -o /dev/null "$po"
	msgmerge --quiet --no-fuzzy-matching -o "$folder/now.po" "$po" "$folder/all.pot"
	missing=$(msgattrib --untranslated --no-obsolete --no-wrap --no-location \
		"$folder/now.po" | grep '^msgid ".' || :)
	if [ -n "$missing" ]; then
		echo "$po lacks:"
		echo "$missing"
		bad=1
	fi
done
[ "$bad" -eq 0 ] || exit 1
echo "$n texts, all translated"
