/* migration.h - the numbered .sql files, compiled in by tools/embed_sql.sh. */
#ifndef BOOK_MIGRATION_H
#define BOOK_MIGRATION_H

/* book_migrations[k] brings a book of user_version k to k + 1. */
extern const char *const book_migrations[];
extern const int book_n_migration;

#endif /* BOOK_MIGRATION_H */
