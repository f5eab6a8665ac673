/* certificate.c - an authority kept, a server's certificate made. */
#include "web/certificate.h"

#include <arpa/inet.h>
#include <errno.h>
#include <fcntl.h>
#include <gnutls/crypto.h>
#include <gnutls/gnutls.h>
#include <gnutls/x509.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

enum {
	DAY_S = 86400,
	AUTHORITY_DAYS = 3650,
	SERVER_DAYS = 90, /* started anew more often than that */
	SERIAL_BYTES = 16,
	OTHERS = 077,
	PATH_MOST = 4096
};

/* Both halves of a certificate. */
struct pair {
	gnutls_x509_privkey_t key;
	gnutls_x509_crt_t crt;
};

static void
pair_free(struct pair *pair)
{
	if (pair->crt != NULL)
		gnutls_x509_crt_deinit(pair->crt);
	if (pair->key != NULL)
		gnutls_x509_privkey_deinit(pair->key);
}

static enum err_code
check(int code, struct err *err)
{
	if (code >= 0)
		return ERR_NONE;
	return err_report(err, ERR_SYSTEM, "--tls",
		"The certificate could not be made: %s.",
		gnutls_strerror(code));
}

static enum err_code
pair_new(struct pair *pair, struct err *err)
{
	*pair = (struct pair){NULL, NULL};
	TRY(check(gnutls_x509_privkey_init(&pair->key), err));
	return check(gnutls_x509_crt_init(&pair->crt), err);
}

/* What the two kinds share. */
static enum err_code
begin(struct pair *pair, const char *name, int64_t now_s, int days,
	struct err *err)
{
	unsigned char serial[SERIAL_BYTES], id[64];
	size_t n_id = sizeof id;
	gnutls_x509_crt_t crt = pair->crt;

	TRY(check(gnutls_x509_privkey_generate(pair->key, GNUTLS_PK_ECDSA,
			  GNUTLS_CURVE_TO_BITS(GNUTLS_ECC_CURVE_SECP256R1), 0),
		err));
	TRY(check(gnutls_rnd(GNUTLS_RND_NONCE, serial, sizeof serial), err));
	serial[0] = (unsigned char)((serial[0] & 0x7F) | 0x40);
	TRY(check(gnutls_x509_crt_set_version(crt, 3), err));
	TRY(check(gnutls_x509_crt_set_serial(crt, serial, sizeof serial), err));
	TRY(check(
		gnutls_x509_crt_set_dn_by_oid(crt, GNUTLS_OID_X520_COMMON_NAME,
			0, name, (unsigned)strlen(name)),
		err));
	/* a day back: the clocks of phones differ */
	TRY(check(gnutls_x509_crt_set_activation_time(
			  crt, (time_t)(now_s - DAY_S)),
		err));
	TRY(check(gnutls_x509_crt_set_expiration_time(
			  crt, (time_t)(now_s + (int64_t)days * DAY_S)),
		err));
	TRY(check(gnutls_x509_crt_set_key(crt, pair->key), err));
	TRY(check(gnutls_x509_crt_get_key_id(crt, 0, id, &n_id), err));
	return check(gnutls_x509_crt_set_subject_key_id(crt, id, n_id), err);
}

/* --- The authority. --- */

static enum err_code
constrain(gnutls_x509_crt_t crt, struct err *err)
{
	/* address and mask: 127/8, 10/8, 172.16/12, 192.168/16, 169.254/16 */
	static const unsigned char net[][8] = {{127, 0, 0, 0, 255, 0, 0, 0},
		{10, 0, 0, 0, 255, 0, 0, 0}, {172, 16, 0, 0, 255, 240, 0, 0},
		{192, 168, 0, 0, 255, 255, 0, 0},
		{169, 254, 0, 0, 255, 255, 0, 0}};
	static const char local[] = "localhost";
	gnutls_x509_name_constraints_t names = NULL;
	gnutls_datum_t one = {(void *)(uintptr_t)local, sizeof local - 1};
	int code = gnutls_x509_name_constraints_init(&names);

	if (code >= 0)
		code = gnutls_x509_name_constraints_add_permitted(
			names, GNUTLS_SAN_DNSNAME, &one);
	for (size_t i = 0; i < sizeof net / sizeof net[0] && code >= 0; i++) {
		one = (gnutls_datum_t){(void *)(uintptr_t)net[i], 8};
		code = gnutls_x509_name_constraints_add_permitted(
			names, GNUTLS_SAN_IPADDRESS, &one);
	}
	if (code >= 0)
		code = gnutls_x509_crt_set_name_constraints(crt, names, 1);
	if (names != NULL)
		gnutls_x509_name_constraints_deinit(names);
	return check(code, err);
}

static enum err_code
make_authority(struct pair *pair, int64_t now_s, struct err *err)
{
	TRY(begin(
		pair, "Foamwright on this laptop", now_s, AUTHORITY_DAYS, err));
	TRY(check(gnutls_x509_crt_set_basic_constraints(pair->crt, 1, 0), err));
	TRY(check(gnutls_x509_crt_set_key_usage(
			  pair->crt, GNUTLS_KEY_KEY_CERT_SIGN),
		err));
	TRY(constrain(pair->crt, err));
	return check(gnutls_x509_crt_sign2(pair->crt, pair->crt, pair->key,
			     GNUTLS_DIG_SHA256, 0),
		err);
}

static enum err_code
pem_of_crt(gnutls_x509_crt_t crt, char pem[static CERTIFICATE_PEM_MAX],
	struct err *err)
{
	size_t n = CERTIFICATE_PEM_MAX;

	return check(
		gnutls_x509_crt_export(crt, GNUTLS_X509_FMT_PEM, pem, &n), err);
}

static enum err_code
pem_of_key(gnutls_x509_privkey_t key, char pem[static CERTIFICATE_PEM_MAX],
	struct err *err)
{
	size_t n = CERTIFICATE_PEM_MAX;

	return check(
		gnutls_x509_privkey_export(key, GNUTLS_X509_FMT_PEM, pem, &n),
		err);
}

/* --- The file beside the book. --- */

static enum err_code
disk(const char *path, struct err *err)
{
	return err_report(err, ERR_DISK, "--tls",
		"The file %.200s cannot be read or written: %s.", path,
		strerror(errno));
}

static bool
write_all(int file, const char *bytes)
{
	size_t n = strlen(bytes);

	while (n > 0) {
		ssize_t now = write(file, bytes, n);

		if (now <= 0)
			return false;
		bytes += now;
		n -= (size_t)now;
	}
	return true;
}

static enum err_code
keep(const char *path, const struct pair *pair, struct err *err)
{
	char key[CERTIFICATE_PEM_MAX], crt[CERTIFICATE_PEM_MAX];
	int file;
	bool written;

	TRY(pem_of_key(pair->key, key, err));
	TRY(pem_of_crt(pair->crt, crt, err));
	file = open(path, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC,
		S_IRUSR | S_IWUSR);
	if (file < 0)
		return disk(path, err);
	written = write_all(file, key) && write_all(file, crt) &&
		fsync(file) == 0;
	gnutls_memset(key, 0, sizeof key);
	if (close(file) == 0 && written)
		return ERR_NONE;
	(void)unlink(path);
	return disk(path, err);
}

static enum err_code
read_file(int file, const char *path, char *bytes, size_t room, size_t *n,
	struct err *err)
{
	struct stat stat;

	*n = 0;
	if (fstat(file, &stat) != 0)
		return disk(path, err);
	if ((stat.st_mode & OTHERS) != 0)
		return err_report(err, ERR_INPUT, "--tls",
			"Others than you can read %.200s, which holds a secret "
			"key. Remove it; a new one is made, and phones have to "
			"trust that.",
			path);
	while (*n < room) {
		ssize_t now = read(file, bytes + *n, room - *n);

		if (now < 0)
			return disk(path, err);
		if (now == 0)
			break;
		*n += (size_t)now;
	}
	return ERR_NONE;
}

static enum err_code
read_authority(int file, const char *path, struct pair *pair, struct err *err)
{
	char bytes[2 * CERTIFICATE_PEM_MAX];
	gnutls_datum_t pem = {(unsigned char *)bytes, 0};
	size_t n = 0;
	int code;

	TRY(read_file(file, path, bytes, sizeof bytes, &n, err));
	pem.size = (unsigned)n;
	code = gnutls_x509_privkey_import(pair->key, &pem, GNUTLS_X509_FMT_PEM);
	if (code >= 0)
		code = gnutls_x509_crt_import(
			pair->crt, &pem, GNUTLS_X509_FMT_PEM);
	gnutls_memset(bytes, 0, sizeof bytes);
	if (code >= 0)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "--tls",
		"The file %.200s holds no key and certificate (%s). Remove it; "
		"a new one is made.",
		path, gnutls_strerror(code));
}

static enum err_code
find_authority(
	const char *book, int64_t now_s, struct pair *pair, struct err *err)
{
	char path[PATH_MOST];
	enum err_code code;
	int file;

	if (snprintf(path, sizeof path, "%s.tls", book) >= PATH_MOST)
		return err_report(err, ERR_INPUT, "--tls",
			"The path of the book is too long.");
	file = open(path, O_RDONLY | O_NOFOLLOW | O_CLOEXEC);
	if (file < 0 && errno != ENOENT)
		return disk(path, err);
	if (file < 0) {
		TRY(make_authority(pair, now_s, err));
		return keep(path, pair, err);
	}
	code = read_authority(file, path, pair, err);
	(void)close(file);
	return code;
}

/* --- The server's own. --- */

static int
add_host(gnutls_x509_crt_t crt, const char *host)
{
	struct in_addr address;

	if (inet_pton(AF_INET, host, &address) == 1)
		return gnutls_x509_crt_set_subject_alt_name(crt,
			GNUTLS_SAN_IPADDRESS, &address, sizeof address,
			GNUTLS_FSAN_APPEND);
	return gnutls_x509_crt_set_subject_alt_name(crt, GNUTLS_SAN_DNSNAME,
		host, (unsigned)strlen(host), GNUTLS_FSAN_APPEND);
}

static enum err_code
make_server(struct pair *pair, const struct pair *authority,
	const char *const *host, size_t n_host, int64_t now_s, struct err *err)
{
	unsigned char id[64];
	size_t n_id = sizeof id;

	TRY(begin(pair, "Foamwright", now_s, SERVER_DAYS, err));
	for (size_t i = 0; i < n_host; i++)
		TRY(check(add_host(pair->crt, host[i]), err));
	TRY(check(
		gnutls_x509_crt_set_basic_constraints(pair->crt, 0, -1), err));
	TRY(check(gnutls_x509_crt_set_key_usage(
			  pair->crt, GNUTLS_KEY_DIGITAL_SIGNATURE),
		err));
	TRY(check(gnutls_x509_crt_set_key_purpose_oid(
			  pair->crt, GNUTLS_KP_TLS_WWW_SERVER, 0),
		err));
	TRY(check(
		gnutls_x509_crt_get_key_id(authority->crt, 0, id, &n_id), err));
	TRY(check(gnutls_x509_crt_set_authority_key_id(pair->crt, id, n_id),
		err));
	return check(gnutls_x509_crt_sign2(pair->crt, authority->crt,
			     authority->key, GNUTLS_DIG_SHA256, 0),
		err);
}

static enum err_code
take_fingerprint(
	gnutls_x509_crt_t crt, struct certificate *out, struct err *err)
{
	unsigned char print[32];
	size_t n = sizeof print;

	TRY(check(gnutls_x509_crt_get_fingerprint(
			  crt, GNUTLS_DIG_SHA256, print, &n),
		err));
	for (size_t i = 0; i < n; i++)
		(void)snprintf(out->fingerprint + 3 * i, 4, "%02X%s", print[i],
			i + 1 < n ? ":" : "");
	return ERR_NONE;
}

static enum err_code
make_all(const char *book, const char *const *host, size_t n_host,
	int64_t now_s, struct pair pair[static 2], struct certificate *out,
	struct err *err)
{
	struct pair *authority = &pair[0], *server = &pair[1];

	TRY(pair_new(authority, err));
	TRY(pair_new(server, err));
	TRY(find_authority(book, now_s, authority, err));
	TRY(make_server(server, authority, host, n_host, now_s, err));
	TRY(pem_of_key(server->key, out->key, err));
	TRY(pem_of_crt(server->crt, out->chain, err));
	TRY(pem_of_crt(authority->crt, out->authority, err));
	return take_fingerprint(authority->crt, out, err);
}

enum err_code
certificate_open(const char *book, const char *const *host, size_t n_host,
	int64_t now_s, struct certificate *certificate, struct err *err)
{
	struct pair pair[2] = {{NULL, NULL}, {NULL, NULL}};
	enum err_code code;

	*certificate = (struct certificate){.key = ""};
	code = make_all(book, host, n_host, now_s, pair, certificate, err);
	pair_free(&pair[0]);
	pair_free(&pair[1]);
	return code;
}
