#!/bin/sh
# make_pot.sh - every text of the pages, as a gettext template on stdout: what
# _("...") and N_("...") hold in src/web, and {{"..."}} in its HTML.
# Beside them the names of po/layers.txt.
#   sh tools/make_pot.sh >foamwright.pot
# A translation is brought up to date with
#   msgmerge --update --no-fuzzy-matching po/es.po foamwright.pot
set -eu
cd "$(dirname "$0")/.."
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
mkdir -p "$folder/src/web/page"
# The words of a template, each on its own line of the file, as C.
for page in src/web/page/*.html; do
	sed -n 's/{{"\([^"]*\)"}}/\n_("\1");\n/gp' "$page" |
		grep '^_("' >"$folder/$page" || :
done
# Names that lower layers give and pages show: po/layers.txt, one a line.
sed 's/.*/_("&");/' po/layers.txt >"$folder/layers.c"
(cd "$folder" && find src -name '*.html' -size +0 | LC_ALL=C sort) >"$folder/list"
xgettext --language=C --from-code=UTF-8 --keyword=_ --keyword=N_ --no-wrap \
	--add-location=file --sort-output --omit-header \
	--directory="$folder" --directory=. -o "$folder/body" \
	layers.c $(LC_ALL=C ls src/web/*.c src/web/*.h) $(cat "$folder/list")
cat <<'END'
msgid ""
msgstr ""
"Project-Id-Version: foamwright\n"
"Content-Type: text/plain; charset=UTF-8\n"
"Content-Transfer-Encoding: 8bit\n"

END
cat "$folder/body"
