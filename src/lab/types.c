/* types.c - words of tests, fates and quantities. */
#include "lab/types.h"

#include <stddef.h>
#include <string.h>

struct name {
	const char *word, *name;
};

#define NAME(item, word, name) {word, name},
static const struct name test_name[] = {LAB_TEST_LIST(NAME)};
static const struct name fate_name[] = {LAB_FATE_LIST(NAME)};
#undef NAME

struct quantity_name {
	const char *word, *name, *unit;
	bool larger_is_better;
};

#define QUANTITY(item, word, name, unit, better) {word, name, unit, better},
static const struct quantity_name quantity_name[] = {
	LAB_QUANTITY_LIST(QUANTITY)};
#undef QUANTITY

/* The place of a word among n names; n if it is not there. */
static size_t
find(const struct name *name, size_t n, const char *word)
{
	size_t i = 0;

	while (i < n && strcmp(name[i].word, word) != 0)
		i++;
	return i;
}

const char *
lab_test_word(enum lab_test test)
{
	return test_name[test].word;
}

const char *
lab_test_name(enum lab_test test)
{
	return test_name[test].name;
}

bool
lab_test_find(const char *word, enum lab_test *test)
{
	size_t i = find(test_name, LAB_TEST_COUNT, word);

	if (i == LAB_TEST_COUNT)
		return false;
	*test = (enum lab_test)i;
	return true;
}

const char *
lab_fate_word(enum lab_fate fate)
{
	return fate_name[fate].word;
}

const char *
lab_fate_name(enum lab_fate fate)
{
	return fate_name[fate].name;
}

bool
lab_fate_find(const char *word, enum lab_fate *fate)
{
	size_t i = find(fate_name, LAB_FATE_COUNT, word);

	if (i == LAB_FATE_COUNT)
		return false;
	*fate = (enum lab_fate)i;
	return true;
}

bool
lab_fate_is_breakage(enum lab_fate fate)
{
	return fate == LAB_SNAPPED_STRIPPING || fate == LAB_SNAPPED_HANDLING;
}

const char *
lab_quantity_word(enum lab_quantity quantity)
{
	return quantity_name[quantity].word;
}

const char *
lab_quantity_name(enum lab_quantity quantity)
{
	return quantity_name[quantity].name;
}

const char *
lab_quantity_unit(enum lab_quantity quantity)
{
	return quantity_name[quantity].unit;
}

bool
lab_quantity_larger_is_better(enum lab_quantity quantity)
{
	return quantity_name[quantity].larger_is_better;
}

bool
lab_quantity_find(const char *word, enum lab_quantity *quantity)
{
	for (size_t i = 0; i < LAB_QUANTITY_COUNT; i++)
		if (strcmp(quantity_name[i].word, word) == 0) {
			*quantity = (enum lab_quantity)i;
			return true;
		}
	return false;
}
