#!/bin/sh
# check_pure.sh LIBRARY... - the computing folders touch no file, clock,
# environment, database, printing or heap, and hold no variable that changes.
# Reads the symbols of their static libraries.
set -eu
bad=0
for library in "$@"; do
	[ -f "$library" ] || { echo "$library is not there"; exit 1; }
	impure=$(nm -A --undefined-only "$library" 2>/dev/null | awk '{print $NF}' |
		grep -E '^(f?open(at|64)?|fdopen|creat|read|write|p?(read|write)64|close|unlink|rename|stat|fgets|fread|fwrite|f?puts|putchar|v?f?printf|__v?f?printf_chk|perror|std(in|out|err)|time|clock(_gettime)?|gettimeofday|localtime(_r)?|gmtime(_r)?|nanosleep|getenv|setenv|secure_getenv|malloc|calloc|realloc|free|strdup|strndup|asprintf|rand|srand|random|exit|_exit|abort|system|popen|fork|exec.*|socket|setlocale|signal|sqlite3_.*|json_.*|unif_rand|norm_rand|exp_rand)$' |
		sort -u || true)
	changing=$(objdump -t "$library" 2>/dev/null | awk '
		/ O +\.(data|bss)[ \t]/ || / O +\*COM\*/ {print $NF}' | sort -u || true)
	if [ -n "$impure$changing" ]; then
		echo "$library:" $impure ${changing:+changing variables: $changing}
		bad=1
	fi
done
[ "$bad" -eq 0 ] && echo "$# libraries, all pure"
exit "$bad"
