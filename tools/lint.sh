#!/bin/sh
# lint.sh BUILD - layout, the machine's fresh eyes, and the words we ban.
set -u
bad=0
clang-format-14 --dry-run -Werror $(git ls-files '*.c' '*.h') || bad=1
if git grep -nE '\b(strcpy|strcat|sprintf|vsprintf|strtok|gets|atoi|atof|rand|localtime|gmtime|setlocale|sscanf|system|tmpnam|alloca)\(' -- 'src/*.[ch]'; then
	echo "banned functions above"
	bad=1
fi
# jansson's loops are macros to cppcheck; clang does not know GCC's own options,
# and an option it refuses would end its look at the file.
cppcheck --quiet --error-exitcode=1 --std=c11 --inline-suppr --suppress=missingIncludeSystem --suppress=unknownMacro -Isrc src || bad=1
clang-tidy-14 --quiet -p "$1" --extra-arg=-Wno-unknown-warning-option --extra-arg=-Wno-ignored-optimization-argument --extra-arg=-enable-trivial-auto-var-init-zero-knowing-it-will-be-removed-from-clang $(git ls-files 'src/*.c') 2>/dev/null || bad=1
exit "$bad"
