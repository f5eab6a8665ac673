#!/bin/sh
# make_pot.sh - every text of the pages, as a gettext template on stdout:
# in src/web what _("...") and N_("...") hold, and {{"..."}} in its HTML; in the
# layers below the formats of whatever makes texts in an arena's tongue
# (core/tongue.h) and what N_("...") holds.  A format without a word, such as
# "%s-%d", is no text.  Beside them the names of po/layers.txt.
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
# The words that a column may hold, CHECK (fate IN ('waiting', ...)), which pages
# show looked up; as measures are shown, without underscores.
cat src/book/sql/*.sql | tr '\n' ' ' | grep -o " IN ('[^)]*)" |
	grep -o "'[a-z][a-z_ -]*'" | tr -d "'" | tr _ ' ' | grep '...' |
	LC_ALL=C sort -u | sed 's/.*/_("&");/' >"$folder/columns.c"
# Names that lower layers give and pages show: po/layers.txt, one a line.
sed 's/.*/_("&");/' po/layers.txt >"$folder/layers.c"
(cd "$folder" && find src -name '*.html' -size +0 | LC_ALL=C sort) >"$folder/list"
# What makes a text, the place of its format: all are like printf.
keywords=
for spoken in err_report:4 text_format:2 text_addf:2 import_fault:4; do
	keywords="$keywords --keyword=$spoken --flag=$spoken:c-format"
done
extract() {
	xgettext --language=C --from-code=UTF-8 --keyword --no-wrap \
		--add-location=file --sort-output --omit-header \
		--directory="$folder" --directory=. "$@"
}
extract --keyword=_ --keyword=N_ -o "$folder/pages.pot" \
	layers.c columns.c $(LC_ALL=C ls src/web/*.c src/web/*.h) $(cat "$folder/list")
# In the pages and in the book refusals alone: what the book keeps is English.
extract --keyword=err_report:4 --flag=err_report:4:c-format --keyword=N_ \
	--keyword=err_say:2 -o "$folder/refusals.pot" \
	$(LC_ALL=C ls src/web/*.c src/book/*.[ch])
# Below the pages; the calculator (calc) speaks on the command line alone, and
# a calendar file is for machines.
extract --keyword=N_ --keyword=arena_say:2 --keyword=err_say:2 $keywords -o "$folder/all.pot" \
	$(for layer in $(cat po/spoken.txt); do LC_ALL=C ls $layer; done |
		grep -v -e /calc -e /ics)
cat <<'END'
msgid ""
msgstr ""
"Project-Id-Version: foamwright\n"
"Content-Type: text/plain; charset=UTF-8\n"
"Content-Transfer-Encoding: 8bit\n"

END
msgcat --use-first -o "$folder/both.pot" "$folder/refusals.pot" "$folder/all.pot"
msggrep --no-wrap --sort-output -K -E \
	-e '(^|[^%A-Za-z0-9.])[A-Za-z]{2,}|[A-Za-z]{4,}' \
	-o "$folder/some.pot" "$folder/both.pot"
# The marks of a drawn chart are no text.
msggrep --no-wrap --sort-output -v -K -E -e '[a-z]="|\{fill' \
	-o "$folder/worded.pot" "$folder/some.pot"
msgcat --no-wrap --sort-output --use-first --add-location=file \
	-o "$folder/body" "$folder/pages.pot" "$folder/worded.pot"
cat "$folder/body"
