/* xml.c - reads an SVG with a real parser (expat) for the tests. */
#include "support.h"

#include "xml.h"

#include <expat.h>
#include <stdlib.h>
#include <string.h>

enum { DEPTH_MAX = 32, ELEMENTS_MAX = 60000 };

struct reader {
	struct arena *a;
	struct xml xml;
	size_t open[DEPTH_MAX], n_open;
	struct text words[DEPTH_MAX];
};

static void
on_start(void *reader_arg, const char *name, const char **attribute)
{
	struct reader *reader = reader_arg;
	struct xml_element *e = &reader->xml.element[reader->xml.n_element];
	const char **copy;
	size_t n = 0;

	assert_true(reader->xml.n_element < ELEMENTS_MAX);
	assert_true(reader->n_open < DEPTH_MAX);
	while (attribute[n] != NULL)
		n++;
	copy = arena_take(reader->a, n + 1, sizeof(*copy));
	assert_non_null(copy);
	for (size_t i = 0; i < n; i++)
		copy[i] = arena_text(reader->a, attribute[i]);
	*e = (struct xml_element){arena_text(reader->a, name), copy, n / 2, "",
		reader->n_open > 0 ? reader->open[reader->n_open - 1] : 0};
	text_init(&reader->words[reader->n_open], reader->a);
	reader->open[reader->n_open++] = reader->xml.n_element++;
}

static void
on_words(void *reader_arg, const char *words, int n)
{
	struct reader *reader = reader_arg;

	if (reader->n_open > 0)
		text_add_n(
			&reader->words[reader->n_open - 1], words, (size_t)n);
}

static void
on_end(void *reader_arg, const char *name)
{
	struct reader *reader = reader_arg;

	(void)name;
	reader->n_open--;
	reader->xml.element[reader->open[reader->n_open]].words =
		reader->words[reader->n_open].bytes;
}

struct xml
xml_read(struct arena *a, const char *bytes, size_t n)
{
	struct reader reader = {.a = a};
	XML_Parser parser = XML_ParserCreate("UTF-8");

	assert_non_null(parser);
	reader.xml.element = arena_take(
		a, ELEMENTS_MAX, sizeof(*reader.xml.element));
	assert_non_null(reader.xml.element);
	XML_SetUserData(parser, &reader);
	XML_SetElementHandler(parser, on_start, on_end);
	XML_SetCharacterDataHandler(parser, on_words);
	if (XML_Parse(parser, bytes, (int)n, 1) != XML_STATUS_OK)
		fail_msg("line %lu: %s", XML_GetCurrentLineNumber(parser),
			XML_ErrorString(XML_GetErrorCode(parser)));
	XML_ParserFree(parser);
	return reader.xml;
}

const char *
xml_get(const struct xml_element *element, const char *name)
{
	for (size_t i = 0; i < element->n_attribute; i++)
		if (strcmp(element->attribute[2 * i], name) == 0)
			return element->attribute[2 * i + 1];
	return "";
}

double
xml_number(const struct xml_element *element, const char *name)
{
	const char *words = xml_get(element, name);
	char *end;
	double value = strtod(words, &end);

	if (end == words || *end != '\0')
		fail_msg("%s of <%s> is \"%s\"", name, element->name, words);
	return value;
}

size_t
xml_count(const struct xml *xml, const char *name)
{
	size_t n = 0;

	for (size_t i = 0; i < xml->n_element; i++)
		n += strcmp(xml->element[i].name, name) == 0;
	return n;
}

const struct xml_element *
xml_tipped(const struct xml *xml, const char *words, const char *name)
{
	for (size_t i = 0; i < xml->n_element; i++) {
		size_t group = xml->element[i].parent;

		if (strcmp(xml->element[i].name, "title") != 0 ||
			strstr(xml->element[i].words, words) == NULL)
			continue;
		for (size_t k = i; k < xml->n_element; k++)
			if (xml->element[k].parent == group &&
				strcmp(xml->element[k].name, name) == 0)
				return &xml->element[k];
	}
	fail_msg("no <%s> beside the title \"%s\"", name, words);
	return NULL;
}
