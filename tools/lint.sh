#!/bin/sh
# lint.sh BUILD - layout, the machine's fresh eyes, and the words we ban.
set -u
bad=0
clang-format-14 --dry-run -Werror $(git ls-files '*.c' '*.h') || bad=1
if git grep -nE '\b(strcpy|strcat|sprintf|vsprintf|strtok|gets|atoi|atof|rand|localtime|gmtime|setlocale|sscanf|system|tmpnam|alloca)\(' -- 'src/*.[ch]'; then
	echo "banned functions above"
	bad=1
fi
cppcheck --quiet --error-exitcode=1 --std=c11 --inline-suppr --suppress=missingIncludeSystem -Isrc src || bad=1
clang-tidy-14 --quiet -p "$1" $(git ls-files 'src/*.c') 2>/dev/null || bad=1
exit "$bad"
