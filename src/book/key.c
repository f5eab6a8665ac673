/* key.c - the columns of a row, one after the other, into a key. */
#include "book/key.h"

#include "book/book_priv.h"

static void
add_maybe(struct memo_keying *keying, const struct maybe *m)
{
	memo_key_count(keying, m->has);
	memo_key_number(keying, m->has ? m->value : 0);
}

static void
add_text(struct memo_keying *keying, const char *text)
{
	memo_key_text(keying, text != NULL ? text : "");
}

static void
add_column(struct memo_keying *keying, const struct book_column *c,
	const char *row)
{
	const void *p = row + c->offset;

	switch (c->type) {
	case BOOK_TEXT:
	case BOOK_TEXT_MAYBE:
		add_text(keying, *(const char *const *)p);
		return;
	case BOOK_REAL:
		memo_key_number(keying, *(const double *)p);
		return;
	case BOOK_MAYBE:
	case BOOK_MAYBE_WHOLE:
		add_maybe(keying, p);
		return;
	case BOOK_ID:
	case BOOK_ID_MAYBE:
		memo_key_bytes(keying, p, sizeof(int64_t));
		return;
	case BOOK_FLAG:
	case BOOK_AFTER:
		memo_key_count(keying, *(const bool *)p);
		return;
	case BOOK_CENTS:
		memo_key_count(keying,
			*(const bool *)(const void *)(row + c->flag_offset));
		memo_key_bytes(keying, p, sizeof(int64_t));
		return;
	}
}

static void
add_row(struct memo_keying *keying, enum book_table table, const void *row)
{
	const struct book_schema *schema = &book_schemas[table];

	for (size_t i = 0; i < schema->n_column; i++)
		add_column(keying, &schema->column[i], row);
}

void
book_key_part(struct memo_keying *keying, const struct book_part *row)
{
	add_row(keying, BOOK_PART, row);
}

void
book_key_part_use(struct memo_keying *keying, const struct book_part_use *row)
{
	add_row(keying, BOOK_PART_USE, row);
}
