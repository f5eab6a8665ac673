/* file.c - the book as a file, read by the descriptor that SQLite holds. */
#include "book/file.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Places in the head of an SQLite file (SQLite, "Database File Format", 1.3).
 */
enum {
	HEAD = 100,
	AT_PAGE_SIZE = 16,
	AT_JOURNAL = 18,
	AT_PAGES = 28,
	AT_USER_VERSION = 60,
	AT_APPLICATION_ID = 68,
	PAGE_MOST = 65536
};

static enum err_code
not_a_book(const char *path, const char *what, struct err *err)
{
	return err_report(err, ERR_NOT_A_BOOK, "book",
		"%s is %s, not a book of Foamwright. Name a file that "
		"\"foamwright new\" made.",
		path, what);
}

static enum err_code
cannot_open(const char *path, struct err *err)
{
	if (errno == ENOENT || errno == ENOTDIR)
		return err_report(err, ERR_NOT_FOUND, "book",
			"There is no file %s. Make a book with \"foamwright "
			"new %s\".",
			path, path);
	if (errno == ELOOP)
		return err_report(err, ERR_NOT_A_BOOK, "book",
			"%s leads through links in a circle. Name the file "
			"itself.",
			path);
	if (errno == ENAMETOOLONG)
		return err_report(err, ERR_INPUT, "book",
			"The name of the book is too long. Choose a shorter "
			"one.");
	return err_report(err, ERR_SYSTEM, "book", "%s cannot be opened: %s.",
		path, strerror(errno));
}

static enum err_code
check_kind(const char *path, const char *whole, struct err *err)
{
	struct stat status;

	if (lstat(whole, &status) != 0)
		return cannot_open(path, err);
	if (S_ISLNK(status.st_mode))
		return err_report(err, ERR_NOT_A_BOOK, "book",
			"%s is a link, and books are not opened through links. "
			"Name the file itself.",
			path);
	if (S_ISDIR(status.st_mode))
		return not_a_book(path, "a folder", err);
	if (!S_ISREG(status.st_mode))
		return not_a_book(path, "a device or a pipe", err);
	if (status.st_size == 0)
		return not_a_book(path, "an empty file", err);
	if (access(whole, R_OK) != 0)
		return cannot_open(path, err);
	return ERR_NONE;
}

enum err_code
book_file_whole(const char *path, char *whole, size_t room, struct err *err)
{
	const char *slash = strrchr(path, '/');
	const char *name = slash != NULL ? slash + 1 : path;
	char folder[PATH_MAX], real[PATH_MAX];
	size_t n = (size_t)(name - path);

	if (n >= sizeof folder) {
		errno = ENAMETOOLONG;
		return cannot_open(path, err);
	}
	memcpy(folder, path, n);
	folder[n] = '\0';
	if (realpath(n > 0 ? folder : ".", real) == NULL)
		return cannot_open(path, err);
	if ((size_t)snprintf(whole, room, "%s/%s", real, name) >= room) {
		errno = ENAMETOOLONG;
		return cannot_open(path, err);
	}
	return ERR_NONE;
}

enum err_code
book_file_find(const char *path, char *whole, size_t room, struct err *err)
{
	TRY(book_file_whole(path, whole, room, err));
	return check_kind(path, whole, err);
}

bool
book_file_has_journal(const char *path)
{
	char name[PATH_MAX];

	if ((size_t)snprintf(name, sizeof name, "%s-journal", path) >=
		sizeof name)
		return false;
	return access(name, F_OK) == 0;
}

static uint32_t
big_endian(const unsigned char *at, size_t n)
{
	uint32_t value = 0;

	for (size_t i = 0; i < n; i++)
		value = value << 8 | at[i];
	return value;
}

static enum err_code
check_head(const char *path, const unsigned char head[HEAD], sqlite3_int64 size,
	int newest, struct err *err)
{
	uint64_t page = big_endian(head + AT_PAGE_SIZE, 2);
	uint64_t pages = big_endian(head + AT_PAGES, 4);
	uint32_t version = big_endian(head + AT_USER_VERSION, 4);

	if (memcmp(head, "SQLite format 3", 16) != 0)
		return not_a_book(path, "some other kind of file", err);
	if (big_endian(head + AT_APPLICATION_ID, 4) != BOOK_APPLICATION_ID ||
		version == 0)
		return not_a_book(path, "another program's database", err);
	if (version > (uint32_t)newest)
		return err_report(err, ERR_NEWER_BOOK, "book",
			"%s was written by a newer Foamwright (book version "
			"%u; this one knows up to %d). Use the newer program; "
			"the book was not touched.",
			path, (unsigned)version, newest);
	if (head[AT_JOURNAL] != 1 || head[AT_JOURNAL + 1] != 1)
		return not_a_book(path,
			"a database in a mode that loses rows "
			"when it is copied",
			err);
	if (page == 1)
		page = PAGE_MOST;
	/* After a kill in mid-write SQLite puts the file right by its journal;
	 * only without one is a short file a damaged one. */
	if ((uint64_t)size < page * pages && !book_file_has_journal(path))
		return err_report(err, ERR_DAMAGED, "book",
			"%s is cut short: it should have %llu bytes and has "
			"%lld. Use an earlier copy.",
			path, (unsigned long long)(page * pages),
			(long long)size);
	return ERR_NONE;
}

static sqlite3_file *
file_of(sqlite3 *db)
{
	sqlite3_file *file = NULL;

	if (sqlite3_file_control(db, "main", SQLITE_FCNTL_FILE_POINTER,
		    &file) != SQLITE_OK ||
		file == NULL || file->pMethods == NULL)
		return NULL;
	return file;
}

enum err_code
book_file_check(sqlite3 *db, const char *path, int newest, struct err *err)
{
	sqlite3_file *file = file_of(db);
	unsigned char head[HEAD];
	sqlite3_int64 size = 0;
	int rc;

	if (file == NULL || file->pMethods->xFileSize(file, &size) != SQLITE_OK)
		return err_report(
			err, ERR_SYSTEM, "book", "%s cannot be read.", path);
	if (size < HEAD)
		return not_a_book(path, "some other kind of file", err);
	rc = file->pMethods->xRead(file, head, HEAD, 0);
	if (rc != SQLITE_OK)
		return err_report(err, ERR_DISK, "book",
			"The disk did not read %s. Check the disk, then try "
			"again.",
			path);
	return check_head(path, head, size, newest, err);
}

/* ---- a copy ---- */

static enum err_code
copy_failed(const char *to, int number, struct err *err)
{
	if (number == ENOSPC || number == EDQUOT || number == EFBIG)
		return err_report(err, ERR_DISK, "book",
			"There is no room for %s, the copy that is kept of the "
			"older book. Make room, then try again; nothing was "
			"changed.",
			to);
	return err_report(err, number == EIO ? ERR_DISK : ERR_SYSTEM, "book",
		"%s, the copy that is kept of the older book, cannot be made: "
		"%s. Copy the book to a folder of your own, then try again; "
		"nothing was changed.",
		to, strerror(number));
}

static bool
write_whole(int fd, const char *bytes, size_t n)
{
	while (n > 0) {
		ssize_t done = write(fd, bytes, n);

		if (done < 0 && errno == EINTR)
			continue;
		if (done <= 0)
			return false;
		bytes += done;
		n -= (size_t)done;
	}
	return true;
}

/* 0, or the errno that stopped it. */
static int
copy_bytes(sqlite3_file *from, int to)
{
	char bytes[PAGE_MOST];
	sqlite3_int64 size, at = 0;

	if (from->pMethods->xFileSize(from, &size) != SQLITE_OK)
		return EIO;
	while (at < size) {
		int n = size - at < PAGE_MOST ? (int)(size - at) : PAGE_MOST;

		if (from->pMethods->xRead(from, bytes, n, at) != SQLITE_OK)
			return EIO;
		if (!write_whole(to, bytes, (size_t)n))
			return errno != 0 ? errno : ENOSPC;
		at += n;
	}
	return fsync(to) == 0 ? 0 : errno;
}

/* So that the copy's name outlives a power cut too. */
static int
flush_folder(const char *path)
{
	char folder[PATH_MAX];
	const char *slash = strrchr(path, '/');
	int fd, number = 0;

	(void)snprintf(folder, sizeof folder, "%.*s",
		slash != NULL ? (int)(slash - path) + 1 : 1,
		slash != NULL ? path : ".");
	fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
	if (fd < 0)
		return errno;
	if (fsync(fd) != 0 && errno != EINVAL)
		number = errno;
	(void)close(fd);
	return number;
}

enum err_code
book_file_copy(sqlite3 *db, const char *to, struct err *err)
{
	sqlite3_file *file = file_of(db);
	int fd, number;

	if (file == NULL)
		return copy_failed(to, EIO, err);
	fd = open(
		to, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0644);
	if (fd < 0 && (errno == EEXIST || errno == ELOOP))
		return err_report(err, ERR_CONFLICT, "book",
			"%s is already there and is not written over.", to);
	if (fd < 0)
		return copy_failed(to, errno, err);
	number = copy_bytes(file, fd);
	if (close(fd) != 0 && number == 0)
		number = errno;
	if (number == 0)
		number = flush_folder(to);
	if (number == 0)
		return ERR_NONE;
	(void)unlink(to);
	return copy_failed(to, number, err);
}
