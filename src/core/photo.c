/* photo.c - the parts of a picture file, walked one by one. */
#include "core/photo.h"

#include <stdint.h>
#include <string.h>

/* What is read, and what is kept of it: never more than was read, but for the
 * orientation that is written anew. */
struct walk {
	const unsigned char *in;
	size_t n, at;
	unsigned char *out;
	size_t n_out;
	struct photo photo;
	unsigned orientation; /* of Exif, 1 to 8; 0: not said */
	bool has_size, has_data;
};

enum { ROOM_ANEW = 64 };

static uint32_t
big(const unsigned char *at, size_t n)
{
	uint32_t value = 0;

	for (size_t i = 0; i < n; i++)
		value = value << 8 | at[i];
	return value;
}

static uint32_t
little(const unsigned char *at, size_t n)
{
	uint32_t value = 0;

	for (size_t i = n; i > 0; i--)
		value = value << 8 | at[i - 1];
	return value;
}

static void
keep(struct walk *w, const void *bytes, size_t n)
{
	if (n > 0)
		memcpy(w->out + w->n_out, bytes, n);
	w->n_out += n;
}

static bool
starts(const unsigned char *at, size_t n, const char *with, size_t n_with)
{
	return n >= n_with && memcmp(at, with, n_with) == 0;
}

static enum err_code
cut_short(struct err *err)
{
	return err_report(err, ERR_INPUT, "file",
		"The picture is cut short or damaged. Take it out of the "
		"camera or the album anew.");
}

/* ---- Exif ---- */

enum {
	TAG_ORIENTATION = 0x0112,
	TAG_PLACE = 0x8825, /* the table of GPS figures */
	TYPE_SHORT = 3,
	ENTRY = 12,
	TIFF_HEAD = 8,
	TURNED = 5 /* from this orientation on, width is height */
};

/* The first table of a TIFF structure: which way up, and is there a place? */
static void
read_exif(struct walk *w, const unsigned char *tiff, size_t n)
{
	uint32_t (*number)(const unsigned char *, size_t) = little;
	size_t at, count;

	if (starts(tiff, n, "MM\0*", 4))
		number = big;
	else if (!starts(tiff, n, "II*\0", 4))
		return;
	if (n < TIFF_HEAD)
		return;
	at = number(tiff + 4, 4);
	if (at > n || n - at < 2)
		return;
	count = number(tiff + at, 2);
	at += 2;
	for (; count > 0 && n - at >= ENTRY; count--, at += ENTRY) {
		uint32_t tag = number(tiff + at, 2);
		uint32_t value = number(tiff + at + 8, 2);

		w->photo.had_place |= tag == TAG_PLACE;
		if (tag == TAG_ORIENTATION &&
			number(tiff + at + 2, 2) == TYPE_SHORT && value >= 1 &&
			value <= 8)
			w->orientation = value;
	}
}

/* Exif that says which way up, and nothing else. */
static void
keep_orientation(struct walk *w)
{
	const unsigned char exif[] = {0xff, 0xe1, 0, 34, 'E', 'x', 'i', 'f', 0,
		0, 'M', 'M', 0, '*', 0, 0, 0, TIFF_HEAD, 0, 1, 0x01, 0x12, 0,
		TYPE_SHORT, 0, 0, 0, 1, 0, (unsigned char)w->orientation, 0, 0,
		0, 0, 0, 0};

	if (w->orientation > 1)
		keep(w, exif, sizeof exif);
}

/* ---- JPEG ---- */

enum {
	SOF0 = 0xc0,
	DHT = 0xc4,
	JPG = 0xc8,
	DAC = 0xcc,
	SOF15 = 0xcf,
	RST0 = 0xd0,
	RST7 = 0xd7,
	SOI = 0xd8,
	EOI = 0xd9,
	SOS = 0xda,
	APP0 = 0xe0,
	APP1 = 0xe1,
	APP2 = 0xe2,
	APP14 = 0xee,
	APP15 = 0xef,
	COM = 0xfe
};

static bool
is_frame(unsigned marker)
{
	return marker >= SOF0 && marker <= SOF15 && marker != DHT &&
		marker != JPG && marker != DAC;
}

/* A segment that the picture needs to look as it does. */
static bool
is_needed(unsigned marker, const unsigned char *body, size_t n)
{
	if (marker == COM)
		return false;
	if (marker < APP0 || marker > APP15)
		return true;
	return (marker == APP0 && starts(body, n, "JFIF", 5)) ||
		(marker == APP2 && starts(body, n, "ICC_PROFILE", 12)) ||
		(marker == APP14 && starts(body, n, "Adobe", 5));
}

/* To the marker after what is coded: FF 00 and RST belong to it. */
static void
keep_coded(struct walk *w)
{
	size_t start = w->at;

	for (; w->at + 1 < w->n; w->at++) {
		unsigned next = w->in[w->at + 1];

		if (w->in[w->at] == 0xff && next != 0 && next != 0xff &&
			(next < RST0 || next > RST7))
			break;
	}
	keep(w, w->in + start, w->at - start);
}

static enum err_code
take_segment(struct walk *w, unsigned marker, struct err *err)
{
	size_t length = w->n - w->at >= 4 ? big(w->in + w->at + 2, 2) : 0;
	const unsigned char *body = w->in + w->at + 4;
	size_t n = length >= 2 ? length - 2 : 0;

	if (length < 2 || w->n - w->at - 2 < length)
		return cut_short(err);
	if (marker == APP1 && starts(body, n, "Exif\0", 6))
		read_exif(w, body + 6, n - 6);
	if (is_frame(marker) && n >= 5) {
		bool is_turned = w->orientation >= TURNED;

		w->photo.width = big(body + (is_turned ? 1 : 3), 2);
		w->photo.height = big(body + (is_turned ? 3 : 1), 2);
		w->has_size = true;
	}
	if (is_needed(marker, body, n))
		keep(w, w->in + w->at, length + 2);
	w->at += length + 2;
	return ERR_NONE;
}

static enum err_code
walk_jpeg(struct walk *w, struct err *err)
{
	keep(w, w->in, 2);
	w->at = 2;
	for (;;) {
		unsigned marker;

		while (w->at + 1 < w->n && w->in[w->at] == 0xff &&
			w->in[w->at + 1] == 0xff)
			w->at++;
		if (w->n - w->at < 2 || w->in[w->at] != 0xff)
			return cut_short(err);
		marker = w->in[w->at + 1];
		if (marker == EOI) {
			keep(w, w->in + w->at, 2);
			return ERR_NONE;
		}
		if (marker < SOF0 || (marker >= RST0 && marker <= SOI))
			return cut_short(err);
		if (!w->has_size && is_frame(marker))
			keep_orientation(w);
		TRY(take_segment(w, marker, err));
		if (marker == SOS) {
			w->has_data = true;
			keep_coded(w);
		}
	}
}

/* ---- PNG ---- */

static const char png_mark[] = "\x89PNG\r\n\x1a\n";

static bool
is_in(const unsigned char *name, const char *const *list)
{
	for (; *list != NULL; list++)
		if (memcmp(name, *list, 4) == 0)
			return true;
	return false;
}

static enum err_code
walk_png(struct walk *w, struct err *err)
{
	static const char *const kept[] = {"IHDR", "PLTE", "IDAT", "IEND",
		"tRNS", "gAMA", "cHRM", "sRGB", "iCCP", "sBIT", "bKGD", "pHYs",
		"cICP", NULL};
	enum { AROUND = 12, NAME_AT = 4, BODY_AT = 8, IHDR_N = 13 };

	keep(w, w->in, 8);
	for (w->at = 8; w->n - w->at >= AROUND;) {
		const unsigned char *at = w->in + w->at;
		size_t n = big(at, 4);
		const unsigned char *name = at + NAME_AT;

		if (w->n - w->at - AROUND < n ||
			(w->at == 8) != (memcmp(name, "IHDR", 4) == 0))
			return cut_short(err);
		if (w->at == 8 && n == IHDR_N) {
			w->photo.width = big(at + BODY_AT, 4);
			w->photo.height = big(at + BODY_AT + 4, 4);
			w->has_size = true;
		}
		w->has_data |= memcmp(name, "IDAT", 4) == 0;
		if (memcmp(name, "eXIf", 4) == 0)
			read_exif(w, at + BODY_AT, n);
		if (is_in(name, kept))
			keep(w, at, n + AROUND);
		w->at += n + AROUND;
		if (memcmp(name, "IEND", 4) == 0)
			return ERR_NONE;
	}
	return cut_short(err);
}

/* ---- WebP ---- */

static void
size_of_webp(struct walk *w, const unsigned char *name,
	const unsigned char *body, size_t n)
{
	unsigned width = 0, height = 0;

	if (w->has_size)
		return;
	if (memcmp(name, "VP8X", 4) == 0 && n >= 10) {
		width = little(body + 4, 3) + 1;
		height = little(body + 7, 3) + 1;
	} else if (memcmp(name, "VP8 ", 4) == 0 && n >= 10 &&
		memcmp(body + 3, "\x9d\x01\x2a", 3) == 0) {
		width = little(body + 6, 2) & 0x3fff;
		height = little(body + 8, 2) & 0x3fff;
	} else if (memcmp(name, "VP8L", 4) == 0 && n >= 5 && body[0] == 0x2f) {
		width = (little(body + 1, 4) & 0x3fff) + 1;
		height = (little(body + 1, 4) >> 14 & 0x3fff) + 1;
	}
	w->photo.width = width;
	w->photo.height = height;
	w->has_size = width > 0 && height > 0;
}

static enum err_code
walk_webp(struct walk *w, struct err *err)
{
	static const char *const kept[] = {
		"VP8X", "VP8 ", "VP8L", "ALPH", "ICCP", "ANIM", "ANMF", NULL};
	enum { HEAD = 12, SAYS_MORE = 0x08 | 0x04 };
	size_t whole = (size_t)little(w->in + 4, 4) + 8;

	if (whole > w->n || whole < HEAD)
		return cut_short(err);
	w->n = whole;
	keep(w, w->in, HEAD);
	for (w->at = HEAD; w->n - w->at >= 8;) {
		const unsigned char *name = w->in + w->at;
		size_t n = little(name + 4, 4), padded = n + (n & 1);
		size_t from = w->n_out;

		if (w->n - w->at - 8 < padded)
			return cut_short(err);
		size_of_webp(w, name, name + 8, n);
		w->has_data |= memcmp(name, "VP8 ", 4) == 0 ||
			memcmp(name, "VP8L", 4) == 0 ||
			memcmp(name, "ANMF", 4) == 0;
		if (memcmp(name, "EXIF", 4) == 0)
			read_exif(w, name + 8, n);
		if (is_in(name, kept))
			keep(w, name, 8 + padded);
		if (memcmp(name, "VP8X", 4) == 0 && n > 0)
			w->out[from + 8] &= (unsigned char)~SAYS_MORE;
		w->at += 8 + padded;
	}
	for (size_t i = 0; i < 4; i++)
		w->out[4 + i] = (unsigned char)((w->n_out - 8) >> 8 * i);
	return ERR_NONE;
}

/* ---- all three ---- */

static enum err_code
walk_kind(struct walk *w, struct err *err)
{
	if (starts(w->in, w->n, "\xff\xd8\xff", 3)) {
		w->photo.media = "image/jpeg";
		w->photo.suffix = ".jpg";
		return walk_jpeg(w, err);
	}
	if (starts(w->in, w->n, png_mark, 8)) {
		w->photo.media = "image/png";
		w->photo.suffix = ".png";
		return walk_png(w, err);
	}
	if (w->n >= 12 && starts(w->in, 4, "RIFF", 4) &&
		starts(w->in + 8, 4, "WEBP", 4)) {
		w->photo.media = "image/webp";
		w->photo.suffix = ".webp";
		return walk_webp(w, err);
	}
	return err_report(err, ERR_INPUT, "file",
		"This is no JPEG, PNG or WebP picture, whatever it is called. "
		"Set the phone's camera to JPEG (\"most compatible\").");
}

static enum err_code
check_size(const struct photo *photo, struct err *err)
{
	double pixels = (double)photo->width * photo->height;

	if (photo->width == 0 || photo->height == 0)
		return cut_short(err);
	if (photo->width > PHOTO_SIDE_MOST || photo->height > PHOTO_SIDE_MOST ||
		pixels > PHOTO_MPIXEL_MOST * 1e6)
		return err_report(err, ERR_INPUT, "file",
			"The picture has %u x %u pixels, more than a browser "
			"shows in peace (%d million). Make it smaller.",
			photo->width, photo->height, PHOTO_MPIXEL_MOST);
	return ERR_NONE;
}

enum err_code
photo_clean(struct arena *arena, const char *bytes, size_t n, struct photo *out,
	struct err *err)
{
	struct walk w = {.in = (const void *)bytes, .n = n};

	if (n > PHOTO_BYTES_MOST)
		return err_report(err, ERR_INPUT, "file",
			"The picture has %.1f MB; at most %d MB of one are "
			"kept. Let the camera take smaller ones.",
			(double)n / (1 << 20), PHOTO_MIB_MOST);
	w.out = arena_take(arena, n + ROOM_ANEW, 1);
	if (w.out == NULL)
		return err_memory(err);
	TRY(walk_kind(&w, err));
	if (!w.has_size || !w.has_data)
		return cut_short(err);
	TRY(check_size(&w.photo, err));
	w.photo.bytes = (const char *)w.out;
	w.photo.n = w.n_out;
	*out = w.photo;
	return ERR_NONE;
}
