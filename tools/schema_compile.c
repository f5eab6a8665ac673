/* schema_compile.c - runs at build time: makes the tables of the numbered
 * migrations in memory and writes what they are as C strings, so that opening a
 * book need not make them again to compare. */
#include "book/migration.h"

#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>

static int
complain(sqlite3 *db, const char *where)
{
	(void)fprintf(
		stderr, "schema_compile: %s: %s\n", where, sqlite3_errmsg(db));
	return EXIT_FAILURE;
}

static void
print_string(const char *text)
{
	(void)fputs("\"", stdout);
	for (; *text != '\0'; text++)
		if (*text == '\n')
			(void)fputs("\\n\"\n\"", stdout);
		else if (*text == '"' || *text == '\\' || *text == '?')
			(void)printf("\\%c", *text);
		else
			(void)putchar(*text);
	(void)fputs("\"", stdout);
}

static int
print_rows(sqlite3 *db)
{
	sqlite3_stmt *s = NULL;
	int n = 0, rc;

	if (sqlite3_prepare_v2(db, book_schema_sql, -1, &s, NULL) != SQLITE_OK)
		return complain(db, "read");
	(void)puts("const struct book_schema_row book_schema_row[] = {");
	while ((rc = sqlite3_step(s)) == SQLITE_ROW) {
		(void)puts("{{");
		for (int i = 0; i < BOOK_SCHEMA_COLUMNS; i++) {
			print_string((const char *)sqlite3_column_text(s, i));
			(void)puts(",");
		}
		(void)puts("}},");
		n++;
	}
	(void)printf("};\nconst int book_n_schema_row = %d;\n", n);
	(void)sqlite3_finalize(s);
	return rc == SQLITE_DONE ? EXIT_SUCCESS : complain(db, "read");
}

int
main(void)
{
	sqlite3 *db = NULL;
	int status = EXIT_SUCCESS;

	(void)puts("/* Made by tools/schema_compile.c; not edited. */\n"
		   "#include \"book/migration.h\"\n"
		   "#pragma GCC diagnostic ignored \"-Woverlength-strings\"\n");
	if (sqlite3_open(":memory:", &db) != SQLITE_OK)
		status = complain(db, "open");
	for (int v = 0; status == EXIT_SUCCESS && v < book_migrations.n; v++)
		if (sqlite3_exec(db, book_migrations.step[v].sql, NULL, NULL,
			    NULL) != SQLITE_OK)
			status = complain(db, book_migrations.step[v].name);
	if (status == EXIT_SUCCESS)
		status = print_rows(db);
	(void)sqlite3_close(db);
	return status;
}
