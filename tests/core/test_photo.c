/* test_photo.c - picture files walked: JPEG (ITU-T T.81, annex B), PNG (W3C,
 * third edition), WebP (RFC 9649), Exif (JEITA CP-3451).  The files are put
 * together here byte by byte from those documents and show nothing. */
#include "support.h"

#include "core/photo.h"

#include <stdlib.h>
#include <string.h>

/* Exif: turned a quarter (6), and a table of GPS figures. */
#define EXIF_BODY                            \
	"Exif\0\0MM\0*\0\0\0\x08\0\x02"      \
	"\x01\x12\0\x03\0\0\0\x01\0\x06\0\0" \
	"\x88\x25\0\x04\0\0\0\x01\0\0\0\x26\0\0\0\0"
#define JPEG_REST                                      \
	"\xff\xc0\0\x0b\x08\0\x14\0\x28\x01\x01\x11\0" \
	"\xff\xda\0\x08\x01\x01\0\0\x3f\0"             \
	"ab\xff\0\x63\xff\xd0\x64\xff\xd9"

static const char jpeg[] = "\xff\xd8\xff\xe1\0\x2e" EXIF_BODY
			   "\xff\xfe\0\x0bkitchen 7" JPEG_REST "<script>";
static const char png[] =
	"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR\0\0\0\x03\0\0\0\x02\x08\x02\0\0\0crc1"
	"\0\0\0\x04tEXtnameccrc\0\0\0\x02IDATxycrc2\0\0\0\0IENDcrc3<html>";
static const char webp[] =
	"RIFF\x34\0\0\0WEBPVP8X\x0a\0\0\0\x0c\0\0\0\x27\0\0\x13\0\0"
	"EXIF\x04\0\0\0II*\0VP8L\x09\0\0\0\x2f\x27\xc0\x04\0abcd\0";

static enum err_code
clean(struct fixture *f, const char *bytes, size_t n, struct photo *out)
{
	char *own = malloc(n > 0 ? n : 1); /* so that a byte too far is seen */
	enum err_code code;

	assert_non_null(own);
	memcpy(own, bytes, n);
	err_clear(&f->err);
	code = photo_clean(f->a, own, n, out, &f->err);
	free(own);
	return code;
}

static bool
holds(const struct photo *photo, const char *text)
{
	size_t n = strlen(text);

	for (size_t i = 0; i + n <= photo->n; i++)
		if (memcmp(photo->bytes + i, text, n) == 0)
			return true;
	return false;
}

static void
photo__a_jpeg_keeps_its_picture_and_the_way_up(void **state)
{
	struct fixture *f = *state;
	struct photo got, again;

	assert_int_equal(ERR_NONE, clean(f, jpeg, sizeof jpeg - 1, &got));
	assert_string_equal("image/jpeg", got.media);
	assert_int_equal(20, got.width); /* turned: 40 x 20 as it lies */
	assert_int_equal(40, got.height);
	assert_true(got.had_place);
	assert_false(holds(&got, "kitchen"));
	assert_false(holds(&got, "<script>"));
	assert_false(holds(&got, "\x88\x25"));
	/* SOI, the orientation alone (36 bytes), then all of the picture */
	assert_int_equal(2 + 36 + sizeof JPEG_REST - 1, got.n);
	assert_memory_equal(JPEG_REST, got.bytes + 38, sizeof JPEG_REST - 1);
	assert_int_equal(ERR_NONE, clean(f, got.bytes, got.n, &again));
	assert_int_equal(20, again.width);
	assert_false(again.had_place);
	assert_int_equal(got.n, again.n);
	assert_memory_equal(got.bytes, again.bytes, got.n);
}

static void
photo__png_and_webp_lose_what_is_said_beside_the_picture(void **state)
{
	struct fixture *f = *state;
	struct photo got;

	assert_int_equal(ERR_NONE, clean(f, png, sizeof png - 1, &got));
	assert_string_equal("image/png", got.media);
	assert_int_equal(3, got.width);
	assert_int_equal(2, got.height);
	assert_false(holds(&got, "tEXt"));
	assert_false(holds(&got, "<html>"));
	assert_true(holds(&got, "IDATxycrc2"));
	assert_int_equal(ERR_NONE, clean(f, webp, sizeof webp - 1, &got));
	assert_string_equal("image/webp", got.media);
	assert_int_equal(40, got.width);
	assert_int_equal(20, got.height);
	assert_false(holds(&got, "EXIF"));
	assert_int_equal(0, got.bytes[20]); /* says that there is none */
	assert_int_equal(got.n - 8, got.bytes[4]);
}

static void
photo__what_is_no_picture_is_refused(void **state)
{
	static const char *const text[] = {"", "\xff\xd8",
		"<html><script>alert(1)</script>",
		"<svg xmlns='http://www.w3.org/2000/svg'/>", "GIF89a", "RIFF"};
	struct fixture *f = *state;
	struct photo got = {.width = 7};

	for (size_t i = 0; i < sizeof text / sizeof text[0]; i++) {
		assert_int_equal(
			ERR_INPUT, clean(f, text[i], strlen(text[i]), &got));
		assert_string_equal("file", f->err.field);
	}
	assert_int_equal(7, got.width);
}

/* Each beginning of each file: refused, or (where only what comes after the
 * picture is missing) taken; never read past. */
static void
photo__cut_short_anywhere_it_is_refused(void **state)
{
	static const struct {
		const char *bytes;
		size_t n, whole;
	} row[] = {{jpeg, sizeof jpeg - 1, sizeof jpeg - 1 - 8},
		{png, sizeof png - 1, sizeof png - 1 - 6},
		{webp, sizeof webp - 1, sizeof webp - 1}};
	struct fixture *f = *state;
	struct photo got;

	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
		for (size_t n = 0; n <= row[i].n; n++)
			assert_int_equal(
				n < row[i].whole ? ERR_INPUT : ERR_NONE,
				clean(f, row[i].bytes, n, &got));
}

/* One byte turned in any place: an answer, whatever it is. */
static void
photo__damage_is_survived(void **state)
{
	static const struct {
		const char *bytes;
		size_t n;
	} row[] = {{jpeg, sizeof jpeg - 1}, {png, sizeof png - 1},
		{webp, sizeof webp - 1}};
	struct fixture *f = *state;
	char own[256];
	struct photo got;

	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
		for (size_t at = 0; at < row[i].n; at++)
			for (int to = 0; to < 256; to += 15) {
				memcpy(own, row[i].bytes, row[i].n);
				own[at] = (char)to;
				(void)!clean(f, own, row[i].n, &got);
			}
}

static void
photo__too_large_is_said_to_be(void **state)
{
	struct fixture *f = *state;
	size_t n = PHOTO_BYTES_MOST + 1;
	char *bytes = calloc(n, 1), wide[sizeof png];
	struct photo got;

	assert_non_null(bytes);
	memcpy(bytes, jpeg, sizeof jpeg);
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT, photo_clean(f->a, bytes, n, &got, &f->err));
	assert_has(f->err.text, "12 MB");
	free(bytes);
	memcpy(wide, png, sizeof png);
	wide[17] = 1; /* 65539 pixels wide */
	assert_int_equal(ERR_INPUT, clean(f, wide, sizeof png - 1, &got));
	assert_has(f->err.text, "pixels");
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(photo__a_jpeg_keeps_its_picture_and_the_way_up),
		TEST(photo__png_and_webp_lose_what_is_said_beside_the_picture),
		TEST(photo__what_is_no_picture_is_refused),
		TEST(photo__cut_short_anywhere_it_is_refused),
		TEST(photo__damage_is_survived),
		TEST(photo__too_large_is_said_to_be),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
