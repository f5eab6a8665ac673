/* test_csvout.c - fields of CSV, RFC 4180, and formulas made harmless. */
#include "core/csvout.h"

#include "support.h"

#include "core/text.h"

static const char *
field(struct fixture *f, const char *value)
{
	struct text text;

	text_init(&text, f->a);
	csvout_field(&text, value);
	return text.n > 0 ? text.bytes : "";
}

/* RFC 4180, section 2, rules 5 to 7. */
static void
csvout__quotes_where_the_rules_ask(void **state)
{
	struct fixture *f = *state;

	assert_string_equal("plain", field(f, "plain"));
	assert_string_equal("", field(f, ""));
	assert_string_equal("\"a,b\"", field(f, "a,b"));
	assert_string_equal("\"a\"\"b\"", field(f, "a\"b"));
	assert_string_equal("\"a\nb\"", field(f, "a\nb"));
}

/* The signs with which a cell is taken for a formula: OWASP, CSV injection. */
static void
csvout__a_formula_is_a_text(void **state)
{
	struct fixture *f = *state;

	assert_string_equal("\"'=1+1\"", field(f, "=1+1"));
	assert_string_equal("\"'@SUM(A1)\"", field(f, "@SUM(A1)"));
	assert_string_equal("\"'+cmd|x\"", field(f, "+cmd|x"));
	assert_string_equal("\"'-2+3\"", field(f, "-2+3"));
	assert_string_equal("\"'\t=1\"", field(f, "\t=1"));
	assert_string_equal("\"'+1\"", field(f, "+1"));
	assert_string_equal("\"'+4e-3\"", field(f, "+4e-3"));
	assert_string_equal("-2.5", field(f, "-2.5"));
	assert_string_equal("-2.5e-07", field(f, "-2.5e-07"));
	assert_string_equal("-", field(f, "-"));
}

/* A name such as -1 is no figure; only who writes the cell knows. */
static void
csvout_text__guards_a_name_that_reads_as_a_number(void **state)
{
	struct fixture *f = *state;
	struct text text;

	text_init(&text, f->a);
	csvout_text(&text, "-1");
	csvout_text(&text, "7");
	csvout_text(&text, "-");
	assert_string_equal("\"'-1\"7-", text.bytes);
}

static void
csvout__rows_end_as_they_should(void **state)
{
	static const char *const cell[] = {"a", NULL, "3"};
	struct fixture *f = *state;
	struct text text;

	text_init(&text, f->a);
	csvout_row(&text, cell, 3);
	assert_string_equal("a,,3\n", text.bytes);
}

static const struct CMUnitTest tests[] = {
	TEST(csvout_text__guards_a_name_that_reads_as_a_number),
	TEST(csvout__quotes_where_the_rules_ask),
	TEST(csvout__a_formula_is_a_text),
	TEST(csvout__rows_end_as_they_should),
};

TEST_MAIN(tests)
