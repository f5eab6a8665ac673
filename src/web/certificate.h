/* certificate.h - what --tls shows: a certificate of this server, signed by an
 * authority of the book's own that a phone can be told to trust.
 *
 * The authority is made once and kept beside the book in BOOK.tls, readable by
 * its owner alone.  It can vouch for localhost and for addresses of private
 * networks only (name constraints, RFC 5280 4.2.1.10; RFC 1918, 3927), so that
 * whoever steals the file cannot pass for a bank.  The server's own is made
 * anew at each start, for the addresses the machine has then.  ECDSA on P-256,
 * by GnuTLS. */
#ifndef WEB_CERTIFICATE_H
#define WEB_CERTIFICATE_H

#include "core/err.h"

#include <stddef.h>
#include <stdint.h>

enum { CERTIFICATE_PEM_MAX = 8192, CERTIFICATE_PRINT_MAX = 3 * 32 + 1 };

struct certificate {
	char key[CERTIFICATE_PEM_MAX];       /* the server's */
	char chain[CERTIFICATE_PEM_MAX];     /* the server's */
	char authority[CERTIFICATE_PEM_MAX]; /* to be trusted */
	/* SHA-256 of the authority, to be compared by eye */
	char fingerprint[CERTIFICATE_PRINT_MAX];
};

/* certificate_open(book, host, n_host, now_s, certificate, err): for these names
 * or IPv4 addresses.
 * ERR_INPUT  the file beside the book can be read by others, or is none
 * ERR_DISK   it cannot be read or written;  ERR_SYSTEM  GnuTLS could not */
enum err_code certificate_open(const char *book, const char *const *host,
	size_t n_host, int64_t now_s, struct certificate *certificate,
	struct err *err) MUST_CHECK;

#endif /* WEB_CERTIFICATE_H */
