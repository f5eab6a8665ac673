/* test_import.c - the demo folder into a fresh book. */
#include "work/import.h"
#include "work/piece.h"

#include "support.h"

#include "book/book.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { PATH_ROOM = 4096, MOMENT_S = 1773651600 };

/* A book in a fresh folder of its own. */
struct place {
	char folder[64], book[96];
	struct desk desk;
};

static void
open_place(struct fixture *f, struct place *p)
{
	static const struct book_info info = {.row.typed = "",
		.name = "Demo",
		.note = "",
		.gallon = "us",
		.currency = "units"};

	memset(p, 0, sizeof *p);
	snprintf(p->folder, sizeof p->folder, "/var/tmp/fwXXXXXX");
	assert_non_null(mkdtemp(p->folder));
	snprintf(p->book, sizeof p->book, "%s/a.book", p->folder);
	p->desk = (struct desk){.now_utc_s = MOMENT_S, .who = "tester"};
	assert_ok(book_create(p->book, &info, MOMENT_S, "tester", &p->desk.book,
			  &f->err),
		&f->err);
}

static void
close_place(struct place *p)
{
	book_close(p->desk.book);
	unlink(p->book);
	rmdir(p->folder);
}

static void
take_demo(
	struct fixture *f, struct place *p, bool dry, struct work_imported *out)
{
	static char folder[PATH_ROOM];
	const char *source = getenv("FOAMWRIGHT_SOURCE");
	struct work_import ask = {.folder = folder, .dry_run = dry};

	snprintf(folder, sizeof folder, "%s/demo",
		source != NULL ? source : ".");
	enum err_code code = work_import(&p->desk, f->a, &ask, out, &f->err);
	for (size_t i = 0; code != ERR_NONE && i < out->n_fault; i++)
		print_error("%s:%zu:%zu: %s: %s\n", out->fault[i].file,
			out->fault[i].line, out->fault[i].column,
			out->fault[i].field, out->fault[i].text);
	assert_ok(code, &f->err);
}

static size_t
count_batches(struct fixture *f, struct place *p)
{
	const struct book_batch *batch;
	size_t n;

	assert_ok(book_all_batch(p->desk.book, f->a, &batch, &n, &f->err),
		&f->err);
	return n;
}

/* The tally of the demo's own scenario: 43 beams. */
static void
import__demo_is_taken_whole(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct work_imported out;
	const struct book_specimen *s;
	size_t n, n_beam = 0, n_28 = 0, n_7 = 0, n_snapped = 0, n_lost = 0;
	const double day_s = 86400;

	open_place(f, &p);
	take_demo(f, &p, false, &out);
	assert_int_equal(14 + 2, count_batches(f, &p));
	assert_ok(
		book_all_specimen(p.desk.book, f->a, &s, &n, &f->err), &f->err);
	for (size_t i = 0; i < n; i++) {
		if (strcmp(s[i].form, "beam") != 0)
			continue;
		bool tested = strcmp(s[i].fate, "tested") == 0;
		n_beam++;
		n_28 += tested && s[i].fate_age_s.value == 28 * day_s;
		n_7 += tested && s[i].fate_age_s.value == 7 * day_s;
		n_snapped += strcmp(s[i].fate, "snapped at stripping") == 0;
		n_lost += strcmp(s[i].fate, "accident") == 0 ||
			strcmp(s[i].fate, "not filled") == 0;
	}
	assert_int_equal(43, n_beam);
	assert_int_equal(37, n_28);
	assert_int_equal(1, n_7);
	assert_int_equal(3, n_snapped);
	assert_int_equal(2, n_lost);
	close_place(&p);
}

static void
import__second_time_changes_nothing(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct work_imported out;
	const struct book_history *history;
	size_t n_before, n_after;

	open_place(f, &p);
	take_demo(f, &p, false, &out);
	assert_ok(book_all_history(
			  p.desk.book, f->a, &history, &n_before, &f->err),
		&f->err);
	take_demo(f, &p, false, &out);
	for (size_t i = 0; i < out.n_count; i++) {
		assert_int_equal(0, out.count[i].n_new);
		assert_int_equal(0, out.count[i].n_changed);
	}
	assert_ok(book_all_history(
			  p.desk.book, f->a, &history, &n_after, &f->err),
		&f->err);
	assert_int_equal(n_before, n_after);
	close_place(&p);
}

static void
import__dry_run_keeps_nothing(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct work_imported out;

	open_place(f, &p);
	take_demo(f, &p, true, &out);
	assert_int_equal(0, count_batches(f, &p));
	close_place(&p);
}

/* write_file(p, name, text): a file of a folder to import, beside the book. */
static void
write_file(const struct place *p, const char *name, const char *text)
{
	char path[128];

	snprintf(path, sizeof path, "%s/%s", p->folder, name);
	FILE *file = fopen(path, "w");
	assert_non_null(file);
	fputs(text, file);
	assert_int_equal(0, fclose(file));
}

static void
drop_file(const struct place *p, const char *name)
{
	char path[128];

	snprintf(path, sizeof path, "%s/%s", p->folder, name);
	unlink(path);
}

static enum err_code
take_folder(struct fixture *f, struct place *p, struct work_imported *out)
{
	struct work_import ask = {.folder = p->folder};

	return work_import(&p->desk, f->a, &ask, out, &f->err);
}

static size_t
count_history(struct fixture *f, struct place *p)
{
	const struct book_history *history;
	size_t n;

	assert_ok(book_all_history(p->desk.book, f->a, &history, &n, &f->err),
		&f->err);
	return n;
}

static void
import__one_changed_cell_is_one_revision(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct work_imported out;
	const struct book_material *m;
	size_t n, n_changed = 0, n_new = 0;

	open_place(f, &p);
	write_file(&p, "materials.csv",
		"code,name,role,package [kg]\nc,cement,cement,25\n"
		"a,ash,binder,23.5\n");
	assert_ok(take_folder(f, &p, &out), &f->err);
	write_file(&p, "materials.csv",
		"code,name,role,package [kg]\nc,cement,cement,25\n"
		"a,ash,binder,42.6\n");
	assert_ok(take_folder(f, &p, &out), &f->err);
	for (size_t i = 0; i < out.n_count; i++) {
		n_changed += out.count[i].n_changed;
		n_new += out.count[i].n_new;
	}
	assert_int_equal(1, n_changed);
	assert_int_equal(0, n_new);
	assert_ok(
		book_all_material(p.desk.book, f->a, &m, &n, &f->err), &f->err);
	assert_int_equal(2, n);
	drop_file(&p, "materials.csv");
	close_place(&p);
}

static bool
has_fault(const struct work_imported *out, const char *file, size_t line,
	size_t column)
{
	for (size_t i = 0; i < out->n_fault; i++)
		if (strcmp(out->fault[i].file, file) == 0 &&
			out->fault[i].line == line &&
			out->fault[i].column == column)
			return true;
	return false;
}

/* A quoted line break before the faults: lines are those of the file. */
static void
import__all_faults_at_once_and_nothing_kept(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct work_imported out;

	open_place(f, &p);
	size_t before = count_history(f, &p);
	write_file(&p, "materials.csv",
		"code,name,role,package [kg]\nc,\"two\nlines\",cement,25\n"
		"a,ash,bindr,25\nb,sand,sand,heavy\nc,again,sand,2\n");
	write_file(&p, "mixes.csv",
		"code,name,matrix,wet_target [kg/m3],mass_c [kg/m3]\n"
		"B,Base,B,-720,456\n");
	assert_int_equal(ERR_INPUT, take_folder(f, &p, &out));
	assert_true(has_fault(&out, "materials.csv", 4, 3));
	assert_true(has_fault(&out, "materials.csv", 5, 4));
	assert_true(has_fault(&out, "materials.csv", 6, 1));
	assert_true(has_fault(&out, "mixes.csv", 2, 4));
	assert_int_equal(4, out.n_fault_all);
	assert_int_equal(before, count_history(f, &p));
	drop_file(&p, "materials.csv");
	drop_file(&p, "mixes.csv");
	close_place(&p);
}

static void
refuse_materials(struct fixture *f, const char *bytes, size_t n)
{
	struct place p;
	struct work_imported out;
	char path[128];

	open_place(f, &p);
	size_t before = count_history(f, &p);
	snprintf(path, sizeof path, "%s/materials.csv", p.folder);
	FILE *file = fopen(path, "wb");
	assert_non_null(file);
	assert_int_equal(n, fwrite(bytes, 1, n, file));
	assert_int_equal(0, fclose(file));
	assert_int_equal(ERR_INPUT, take_folder(f, &p, &out));
	err_clear(&f->err);
	assert_int_equal(before, count_history(f, &p));
	drop_file(&p, "materials.csv");
	close_place(&p);
}

static void
import__hostile_bytes_are_refused(void **state)
{
	struct fixture *f = *state;
	static const char nul[] = "code,name,role\nc,a\0b,cement\n";
	static const char latin[] = "code,name,role\nc,br\xfbl\xe9,cement\n";
	static const char open_quote[] = "code,name,role\nc,\"a,cement\n";

	refuse_materials(f, nul, sizeof nul - 1);
	refuse_materials(f, latin, sizeof latin - 1);
	refuse_materials(f, open_quote, sizeof open_quote - 1);
}

static void
import__semicolon_and_decimal_comma(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct work_imported out;
	const struct book_material *m;
	size_t n;

	open_place(f, &p);
	write_file(&p, "materials.csv",
		"\xef\xbb\xbf"
		"code;name;role;package [kg]\nc;cement;cement;42,6\n");
	assert_ok(take_folder(f, &p, &out), &f->err);
	assert_ok(
		book_all_material(p.desk.book, f->a, &m, &n, &f->err), &f->err);
	assert_int_equal(1, n);
	/* one decimal text read to the nearest double */
	assert_near(m[0].package_kg.value, 42.6, 1e-15, 0);
	drop_file(&p, "materials.csv");
	close_place(&p);
}

/* A folder of one piece, 700 mm long and 75 mm thick, and one reading of it. */
static void
refuse_under(struct fixture *f, const char *heading, const char *reading,
	const char *field, const char *says)
{
	static const char *const names[] = {"mixes.csv", "trial.csv",
		"batches.csv", "specimens.csv", "readings.csv"};
	struct place p;
	struct work_imported out;
	char text[512];

	open_place(f, &p);
	size_t before = count_history(f, &p);
	write_file(&p, "mixes.csv", "code,name\nB,Base\n");
	write_file(&p, "trial.csv", "code,baseline\nT,B\n");
	write_file(&p, "batches.csv", "code,trial,mix\n01,T,B\n");
	write_file(&p, "specimens.csv",
		"code,batch,form,depth [mm],length [mm],fate,fate_age\n"
		"01-1,01,beam,75,700,tested,28 d\n");
	snprintf(text, sizeof text, "%s\n%s\n", heading, reading);
	write_file(&p, "readings.csv", text);
	assert_int_equal(ERR_INPUT, take_folder(f, &p, &out));
	err_clear(&f->err);
	assert_int_equal(1, out.n_fault_all);
	assert_string_equal("readings.csv", out.fault[0].file);
	assert_int_equal(2, out.fault[0].line);
	assert_string_equal(field, out.fault[0].field);
	assert_has(out.fault[0].text, says);
	assert_int_equal(before, count_history(f, &p));
	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
		drop_file(&p, names[i]);
	close_place(&p);
}

static void
refuse_reading(struct fixture *f, const char *reading, const char *field,
	const char *says)
{
	refuse_under(f,
		"specimen,code,kind,age,span [mm],held [kg],broke [kg],place,"
		"dent [mm],went_through",
		reading, field, says);
}

/* Water, screws, frost and heat, as at the bench. */
static void
import__other_home_tests_are_held_to_their_rules(void **state)
{
	struct fixture *f = *state;

	refuse_under(f, "specimen,code,kind,mass [g],dry [g]",
		"01-1,1,moisture,367,412", "dry", "below nothing");
	refuse_under(f, "specimen,code,kind,mass [g]", "01-1,1,soaking,412",
		"time", "24 h");
	refuse_under(f, "specimen,code,kind,time [h],wet_height [mm]",
		"01-1,1,rise,4,703", "wet_height", "more than the piece");
	refuse_under(f, "specimen,code,kind,held_force [N],screw_depth [mm]",
		"01-1,1,screw,310,703", "screw_depth", "more than the piece");
	refuse_under(f, "specimen,code,kind,held_force [N],broke_force [N]",
		"01-1,1,screw,310,290", "broke_force", "below the 310 N");
	refuse_under(f, "specimen,code,kind,cycles,before [g],after [g]",
		"01-1,1,frost,0,817,803", "cycles", "more than nothing");
	refuse_under(f, "specimen,code,kind,length [mm]",
		"01-1,1,shrinkage,703.2", "length", "more than the piece");
	refuse_under(f, "specimen,code,kind,power [W],warm [degC],cold [degC]",
		"01-1,1,hot box,23.7,10.2,41.6", "warm", "the warmer");
	refuse_under(f, "specimen,code,kind,power [W],warm [degC],cold [degC]",
		"01-1,1,hot box,23.7,41.6,-3", "area", "how large the slab is");
}

static void
import__readings_must_fit_their_piece(void **state)
{
	struct fixture *f = *state;

	refuse_reading(f, "01-1,1,drop,28 d,,,,centre,75.3,", "dent",
		"deeper than the piece is thick");
	refuse_reading(f, "01-1,1,bending,28 d,703,18.6,20.6,,,", "span",
		"longer than the piece");
	refuse_reading(f, "01-1,1,bending,28 d,600,20.6,18.6,,,", "broke",
		"not above");
	refuse_reading(f, "01-1,1,bending,-3 d,600,18.6,20.6,,,", "age",
		"cannot be negative");
	refuse_reading(f, "01-7,1,bending,28 d,600,18.6,20.6,,,", "specimen",
		"did you mean \"01-1\"");
}

static void
import__lots_belong_to_their_material(void **state)
{
	struct fixture *f = *state;
	struct place p;
	struct work_imported out;
	const struct book_material_lot *lot = NULL;
	size_t n = 0, before;

	open_place(f, &p);
	write_file(&p, "materials.csv",
		"code,name,role\nc,cement,cement\na,agent,agent\n");
	write_file(&p, "lots.csv",
		"material,code,bought_on,note\nc,1,2026-04-02,\n"
		"a,1,2026-03-11,half a drum\n");
	assert_ok(take_folder(f, &p, &out), &f->err);
	assert_ok(book_all_material_lot(p.desk.book, f->a, &lot, &n, &f->err),
		&f->err);
	assert_int_equal(2, n); /* the same code under two materials */
	assert_string_equal("half a drum", lot[1].note);
	before = count_history(f, &p);
	assert_ok(take_folder(f, &p, &out), &f->err);
	assert_int_equal(before, count_history(f, &p));
	write_file(&p, "lots.csv", "material,code\nq,1\nc,2\nc,2\n");
	assert_int_equal(ERR_INPUT, take_folder(f, &p, &out));
	assert_int_equal(2, out.n_fault_all);
	assert_true(has_fault(&out, "lots.csv", 2, 1));
	assert_true(has_fault(&out, "lots.csv", 4, 2));
	drop_file(&p, "materials.csv");
	drop_file(&p, "lots.csv");
	close_place(&p);
}

static enum err_code
take_files(struct fixture *f, struct place *p,
	const struct work_import_file *file, size_t n, bool dry,
	struct work_imported *out)
{
	const struct work_import ask = {
		.file = file, .n_file = n, .dry_run = dry};
	enum err_code code = work_import(&p->desk, f->a, &ask, out, &f->err);

	err_clear(&f->err);
	return code;
}

#define FILE_OF(name_, text)                                        \
	{                                                           \
		.name = name_, .bytes = text, .n = sizeof(text) - 1 \
	}

/* What the bench entered of a piece outlives a changed row of it. */
static void
import__a_changed_piece_keeps_what_no_column_says(void **state)
{
	static const struct work_import_file first[] = {
		FILE_OF("mixes.csv", "code,name\nB,Base\n"),
		FILE_OF("trial.csv", "code,baseline\nT,B\n"),
		FILE_OF("batches.csv", "code,trial,mix\n01,T,B\n"),
		FILE_OF("specimens.csv",
			"code,batch,form,fate,mass [kg]\n"
			"X1,01,beam,waiting,3.1\n")};
	static const struct work_import_file again[] = {FILE_OF("specimens.csv",
		"code,batch,form,fate,mass [kg]\nX1,01,beam,waiting,2.9\n")};
	struct fixture *f = *state;
	struct work_piece_ask ask = {.code = "X1",
		.damage = "chip at one end",
		.test_age_s = {true, 7 * 86400.0},
		.typed = "{}"};
	struct work_piece_told told;
	struct work_imported out;
	const struct book_specimen *piece;
	struct place p;
	size_t n;

	open_place(f, &p);
	assert_int_equal(ERR_NONE, take_files(f, &p, first, 4, false, &out));
	assert_ok(work_piece_put(&p.desk, f->a, &ask, &told, &f->err), &f->err);
	assert_int_equal(ERR_NONE, take_files(f, &p, again, 1, false, &out));
	assert_ok(book_all_specimen(p.desk.book, f->a, &piece, &n, &f->err),
		&f->err);
	assert_int_equal(1, n);
	assert_near(piece[0].mass_kg.value, 2.9, 1e-15, 0);
	assert_string_equal("chip at one end", piece[0].damage);
	assert_near(piece[0].test_age_s.value, 7 * 86400.0, 0, 0);
	close_place(&p);
}

/* As a page sends them; what was understood, before anything is kept. */
static void
import__files_in_memory_are_shown_first(void **state)
{
	static const struct work_import_file first[] = {
		FILE_OF("site/materials.csv",
			"code;name;role;bulk_density [kg/m3]\n"
			"q;Sand;sand;1435,5\n"),
		FILE_OF("C:\\site\\mixes.csv", "code,name\nB,Base\n"),
		FILE_OF("mixs.csv", "code,name\nC,Base\n")};
	static const struct work_import_file second[] = {
		FILE_OF("mixes.csv", "code,name\nB,Better\nC,Other\n")};
	struct fixture *f = *state;
	struct place p;
	struct work_imported out;
	size_t before;

	open_place(f, &p);
	before = count_history(f, &p);
	assert_int_equal(ERR_NONE, take_files(f, &p, first, 3, true, &out));
	assert_int_equal(before, count_history(f, &p));
	assert_int_equal(2, out.n_row);
	assert_string_equal("q", out.row[0].key);
	assert_true(out.row[0].is_new);
	assert_int_equal(1, out.n_reading);
	assert_string_equal("1435,5 kg/m3", out.reading[0].typed);
	assert_string_equal("1435.5 kg/m3", out.reading[0].read);
	assert_int_equal(1, out.n_warning);
	assert_has(out.warning[0], "mixs.csv is not a file that is read");
	assert_has(out.warning[0], "nearest is mixes.csv");
	assert_int_equal(ERR_NONE, take_files(f, &p, first, 3, false, &out));
	assert_int_equal(before + 1, count_history(f, &p));
	assert_int_equal(ERR_NONE, take_files(f, &p, second, 1, true, &out));
	assert_int_equal(2, out.n_row);
	assert_false(out.row[0].is_new);
	assert_int_equal(2, out.row[0].line);
	assert_has(out.row[0].before, "Base");
	assert_has(out.row[0].now, "Better");
	assert_true(out.row[1].is_new);
	assert_int_equal(before + 1, count_history(f, &p));
	close_place(&p);
}

/* A file that is no CSV hides none of the faults of the others, and what only
 * it could hold is not called missing. */
static void
import__a_broken_file_is_one_fault_of_all(void **state)
{
	static const struct work_import_file file[] = {
		FILE_OF("materials.csv", "code,name,role\nq,S\"and,sand\n"),
		FILE_OF("mixes.csv",
			"code,name,mass_q [kg/m3]\nB,Base,5\n"
			"C,Other,five\n"),
		FILE_OF("trial.csv", "code,baseline\nT,Z\n")};
	struct fixture *f = *state;
	struct place p;
	struct work_imported out;

	open_place(f, &p);
	assert_int_equal(ERR_INPUT, take_files(f, &p, file, 3, true, &out));
	assert_true(has_fault(&out, "materials.csv", 2, 0));
	assert_true(has_fault(&out, "trial.csv", 2, 2));
	assert_int_equal(2, out.n_fault_all);
	close_place(&p);
}

static const struct CMUnitTest tests[] = {
	TEST(import__files_in_memory_are_shown_first),
	TEST(import__a_broken_file_is_one_fault_of_all),
	TEST(import__lots_belong_to_their_material),
	TEST(import__readings_must_fit_their_piece),
	TEST(import__other_home_tests_are_held_to_their_rules),
	TEST(import__demo_is_taken_whole),
	TEST(import__second_time_changes_nothing),
	TEST(import__dry_run_keeps_nothing),
	TEST(import__one_changed_cell_is_one_revision),
	TEST(import__a_changed_piece_keeps_what_no_column_says),
	TEST(import__all_faults_at_once_and_nothing_kept),
	TEST(import__hostile_bytes_are_refused),
	TEST(import__semicolon_and_decimal_comma),
};

TEST_MAIN(tests)
