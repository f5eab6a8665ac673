/* words.c - looks words up in the compiled catalogues (the GNU .mo format: GNU
 * gettext manual, "The Format of GNU MO Files"). */
#include "web/words.h"

#include "web/catalogue.h"

#include <ctype.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { MO_COUNT = 8, MO_ORIGINALS = 12, MO_TRANSLATIONS = 16, MO_ENTRY = 8 };

static uint32_t
word_at(const unsigned char *mo, size_t at)
{
	return (uint32_t)mo[at] | (uint32_t)mo[at + 1] << 8 |
		(uint32_t)mo[at + 2] << 16 | (uint32_t)mo[at + 3] << 24;
}

static const char *
text_at(const unsigned char *mo, uint32_t table, uint32_t i)
{
	return (const char *)mo + word_at(mo, table + MO_ENTRY * i + 4);
}

static const char *
look_up(const unsigned char *mo, const char *english)
{
	uint32_t low = 0, high = word_at(mo, MO_COUNT);
	uint32_t originals = word_at(mo, MO_ORIGINALS);

	while (low < high) {
		uint32_t middle = low + (high - low) / 2;
		int order = strcmp(english, text_at(mo, originals, middle));

		if (order == 0)
			return text_at(
				mo, word_at(mo, MO_TRANSLATIONS), middle);
		if (order < 0)
			high = middle;
		else
			low = middle + 1;
	}
	return NULL;
}

static const char *
find_in(const void *mo, const char *english)
{
	const char *found = NULL;

	if (english[0] != '\0') /* else the catalogue's own heading */
		found = look_up(mo, english);
	return found != NULL && found[0] != '\0' ? found : english;
}

struct tongue
words_tongue(const char *language)
{
	for (size_t i = 0; web_catalogues[i].language != NULL; i++)
		if (strcmp(web_catalogues[i].language, language) == 0)
			return (struct tongue){
				.find = find_in, .with = web_catalogues[i].mo};
	return (struct tongue){.find = NULL};
}

const char *
words(const char *language, const char *english)
{
	const struct tongue tongue = words_tongue(language);

	return tongue_say(&tongue, english);
}

const char *
words_language_at(size_t i)
{
	return i == 0 ? "en" : web_catalogues[i - 1].language;
}

const char *
words_language_name(const char *language)
{
	if (strcmp(language, "es") == 0)
		return "espa\xC3\xB1ol";
	return "English";
}

/* The language of ours that a range such as "es-MX" names; NULL if none. */
static const char *
of_range(const char *range, size_t n)
{
	const char *own;

	for (size_t i = 0; (own = words_language_at(i)) != NULL; i++) {
		size_t length = strlen(own);

		if (n >= length && strncmp(range, own, length) == 0 &&
			(n == length || range[length] == '-'))
			return own;
	}
	return NULL;
}

const char *
words_language(const char *accepted)
{
	const char *best = "en";
	double most = 0;

	while (accepted != NULL && *accepted != '\0') {
		size_t n = strcspn(accepted, ",");
		size_t name = strcspn(accepted, ",; ");
		const char *own = of_range(accepted, name);
		const char *q = strstr(accepted, ";q=");
		double weight = 1;

		if (q != NULL && q < accepted + n)
			weight = strtod(q + 3, NULL);
		if (own != NULL && weight > most) {
			best = own;
			most = weight;
		}
		accepted += n;
		accepted += strspn(accepted, ", ");
	}
	return best;
}
