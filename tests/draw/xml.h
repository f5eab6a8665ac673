/* xml.h - reads an SVG with a real parser (expat) for the tests. */
#ifndef TESTS_DRAW_XML_H
#define TESTS_DRAW_XML_H

#include "core/text.h"

#include <stdbool.h>
#include <stddef.h>

struct xml_element {
	const char *name;
	const char *const *attribute; /* name, value, ..., NULL */
	size_t n_attribute;           /* pairs */
	const char *words;            /* directly within it, "" if none */
	size_t parent;                /* index; its own for the root */
};

struct xml {
	struct xml_element *element;
	size_t n_element;
};

/* xml_read(arena, bytes, n): fails the test if it is not well-formed. */
struct xml xml_read(struct arena *a, const char *bytes, size_t n);

/* xml_get(element, name): the attribute, "" if there is none.  xml_number: as a
 * number; fails the test if it is none. */
const char *xml_get(const struct xml_element *element, const char *name);
double xml_number(const struct xml_element *element, const char *name);

/* xml_count(xml, name): elements of that name. */
size_t xml_count(const struct xml *xml, const char *name);

/* xml_tipped(xml, words, name): the first element of that name in the group
 * whose <title> holds words; fails the test if there is none. */
const struct xml_element *xml_tipped(
	const struct xml *xml, const char *words, const char *name);

#endif /* TESTS_DRAW_XML_H */
