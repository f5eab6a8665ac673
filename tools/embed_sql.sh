#!/bin/sh
# embed_sql.sh FILE... - writes the numbered migrations as C strings, in order.
set -eu
echo '/* Made by tools/embed_sql.sh from src/book/sql; not edited. */'
echo '#include "book/migration.h"'
echo '#pragma GCC diagnostic ignored "-Woverlength-strings"'
echo
echo 'static const struct book_migration step[] = {'
for file in "$@"; do
	echo "{\"$(basename "$file")\","
	sed -e 's/\\/\\\\/g' -e 's/"/\\"/g' -e 's/?/\\?/g' -e 's/^/"/' -e 's/$/\\n"/' "$file"
	echo '},'
done
echo '};'
echo
echo "const struct book_migrations book_migrations = {step, $#};"
