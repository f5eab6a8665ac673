/* key.h - rows as inputs of a remembered computing: every column of them, so
 * that a new column cannot be forgotten. */
#ifndef BOOK_KEY_H
#define BOOK_KEY_H

#include "book/types.h"
#include "core/memo.h"

void book_key_part(struct memo_keying *keying, const struct book_part *row);
void book_key_part_use(
	struct memo_keying *keying, const struct book_part_use *row);

#endif /* BOOK_KEY_H */
