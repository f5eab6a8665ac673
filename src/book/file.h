/* file.h - the book as a file: what it is, and a copy of it.
 *
 * Nothing here opens the book's file beside SQLite: closing a second descriptor
 * would drop the locks that the process holds on it (SQLite, "How To Corrupt An
 * SQLite Database File", 2.2), so bytes are read by SQLite's own. */
#ifndef BOOK_FILE_H
#define BOOK_FILE_H

#include "core/err.h"

#include <sqlite3.h>
#include <stdbool.h>
#include <stddef.h>

/* Our own mark in byte 68 of the file: "Fwrt". */
enum { BOOK_APPLICATION_ID = 0x46777274 };

/* book_file_whole(path, whole, room, err): the path with the links of its
 * folder followed; the file itself need not be there.  ERR_NOT_FOUND no such
 * folder; ERR_INPUT too long */
enum err_code book_file_whole(
	const char *path, char *whole, size_t room, struct err *err) MUST_CHECK;

/* book_file_find(path, whole, room, err): book_file_whole of a file that may
 * be a book.  ERR_NOT_FOUND no such file; ERR_NOT_A_BOOK a folder, a link, a
 * device, an empty file; ERR_SYSTEM not readable. */
enum err_code book_file_find(
	const char *path, char *whole, size_t room, struct err *err) MUST_CHECK;

/* book_file_check(db, path, newest, err): the head of the open file.
 * ERR_NOT_A_BOOK, ERR_NEWER_BOOK above version `newest`, ERR_DAMAGED cut short
 */
enum err_code book_file_check(
	sqlite3 *db, const char *path, int newest, struct err *err) MUST_CHECK;

/* book_file_has_journal(path): a write was cut off, or is going on. */
bool book_file_has_journal(const char *path);

/* book_file_copy(db, to, err): the bytes of the open file, which the caller has
 * locked against writers, to a new file that is flushed to the disk.
 * ERR_CONFLICT there is a file of that name; ERR_DISK, ERR_SYSTEM: none made */
enum err_code book_file_copy(
	sqlite3 *db, const char *to, struct err *err) MUST_CHECK;

#endif /* BOOK_FILE_H */
