/* place.c - the demo house imported into a book of its own. */
#include "place.h"

#include "book/book.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { DRAWS = 500 };

void
open_empty_place(struct fixture *f, struct place *p)
{
	static const struct book_info info = {.row.typed = "",
		.name = "Demo",
		.note = "",
		.gallon = "us",
		.currency = "units"};
	const char *source = getenv("FOAMWRIGHT_SOURCE");

	memset(p, 0, sizeof *p);
	snprintf(p->folder, sizeof p->folder, "/var/tmp/fwXXXXXX");
	assert_non_null(mkdtemp(p->folder));
	snprintf(p->book, sizeof p->book, "%s/a.book", p->folder);
	snprintf(p->demo, sizeof p->demo, "%s/demo",
		source != NULL ? source : ".");
	p->desk = (struct desk){.now_utc_s = MOMENT_S,
		.who = "tester",
		.seed = 7,
		.n_chain = 2,
		.n_keep = DRAWS};
	assert_ok(book_create(p->book, &info, MOMENT_S, "tester", &p->desk.book,
			  &f->err),
		&f->err);
}

void
import_demo(struct fixture *f, struct place *p, struct work_imported *out)
{
	const struct work_import ask = {.folder = p->demo};

	assert_ok(work_import(&p->desk, f->a, &ask, out, &f->err), &f->err);
}

void
open_place(struct fixture *f, struct place *p)
{
	struct work_imported out;

	open_empty_place(f, p);
	import_demo(f, p, &out);
}

void
close_place(struct place *p)
{
	book_close(p->desk.book);
	unlink(p->book);
	rmdir(p->folder);
}
