/* piece.c - forms and test pieces. */
#include "work/piece.h"

#include "book/book.h"
#include "core/date.h"
#include "core/text.h"
#include "lab/label.h"
#include "work/bench_notes.h"

#include <math.h>
#include <string.h>

static const double usual_test_age_s = 28 * 86400.0;

/* Starting values, common practice, no source. */
static const double sunk_watch_ratio = 0.03, sunk_far_ratio = 0.10,
		    sunk_other_ratio = 0.15;
static const double swollen_most = 1.2;

static const char *const shapes[] = {
	"beam", "panel", "cube", "cylinder", "prism", "bar", "other"};
static const char *const fates[] = {"waiting", "tested", "snapped at stripping",
	"snapped in handling", "accident", "not filled", "set aside"};

static bool
is_one_of(const char *word, const char *const *list, size_t n)
{
	for (size_t i = 0; i < n; i++)
		if (strcmp(word, list[i]) == 0)
			return true;
	return false;
}

static void
overlay(struct maybe *to, const struct maybe *with)
{
	if (with->has)
		*to = *with;
}

/* ---- forms ---- */

static enum err_code
check_form(const struct book_form *row, struct err *err)
{
	bool round = strcmp(row->shape, "cylinder") == 0;

	if (!is_one_of(row->shape, shapes, sizeof shapes / sizeof shapes[0]))
		return err_report(err, ERR_INPUT, "--shape",
			"\"%.40s\" is no shape of a form; it is beam, panel, "
			"cube, cylinder, prism, bar or other.",
			row->shape);
	if (!(row->depth_m > 0) || (round && !row->diameter_m.has) ||
		(!round && (!row->width_m.has || !row->length_m.has)))
		return err_report(err, ERR_INPUT, "--inner",
			"Say the inner sizes of form %s: %s.", row->code,
			round ? err_say(err,
					"--inner \"100 mm x 200 mm\", diameter "
					"and "
					"height")
			      : err_say(err,
					"--inner \"100 mm x 75 mm x 700 mm\", "
					"width, "
					"height as filled, length"));
	return ERR_NONE;
}

enum err_code
work_form_put(const struct desk *desk, struct arena *arena,
	const struct work_form_ask *ask, bool *made, struct err *err)
{
	struct book_form row = {.code = ask->code, .shape = "", .note = ""};
	struct err unknown = {.code = ERR_NONE};
	struct work_bench bench;
	size_t at;

	TRY(work_bench_read(desk, arena, &bench, err));
	*made = work_find_form(&bench, ask->code, &at, &unknown) != ERR_NONE;
	if (!*made)
		row = bench.form[at];
	row.shape = ask->shape != NULL ? ask->shape : row.shape;
	row.note = ask->note != NULL ? ask->note : row.note;
	overlay(&row.width_m, &ask->width_m);
	overlay(&row.length_m, &ask->length_m);
	overlay(&row.diameter_m, &ask->diameter_m);
	if (ask->depth_m.has)
		row.depth_m = ask->depth_m.value;
	row.row.typed = ask->typed;
	TRY(check_form(&row, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "form",
		desk->submission, err));
	return work_commit_or_undo(
		desk, row.code, book_put_form(desk->book, &row, err), err);
}

/* ---- pieces ---- */

/* Labels of the book, withdrawn ones too: none is given twice. */
struct labels {
	const struct work_site *site;
	const struct book_gone *gone;
	size_t n_gone;
	size_t next; /* serial */
};

static bool
is_taken(const struct labels *l, const char *label)
{
	for (size_t i = 0; i < l->site->n_specimen; i++)
		if (strcmp(l->site->specimen[i].code, label) == 0)
			return true;
	for (size_t i = 0; i < l->n_gone; i++)
		if (strcmp(l->gone[i].key, label) == 0)
			return true;
	return false;
}

static const char *
next_label(struct labels *l, struct arena *arena)
{
	char label[LAB_LABEL_MAX];

	do
		lab_label_write(l->next++, label);
	while (is_taken(l, label) && l->next < LAB_LABELS);
	return arena_text(arena, label);
}

static enum err_code
check_pieces(const struct work_pieces_ask *ask, struct err *err)
{
	if (ask->form == NULL)
		return err_report(err, ERR_INPUT, "--form",
			"Say in which form they were cast: --form B1.");
	if (!ask->count.has || ask->count.value < 1 ||
		ask->count.value > WORK_PIECES_MOST)
		return err_report(err, ERR_INPUT, "--count",
			"Say how many pieces there are, 1 to %d: --count 3. "
			"Forms that stayed empty count too.",
			(int)WORK_PIECES_MOST);
	if (ask->test_age_s.has && !(ask->test_age_s.value > 0))
		return err_report(err, ERR_INPUT, "--test-age",
			"The age at the test must be more than nothing, such "
			"as \"28 d\".");
	return ERR_NONE;
}

static enum err_code
find_batch(const struct work_site *site, const char *code, size_t *index,
	struct err *err)
{
	const char *near = NULL;
	size_t least = 3;

	for (size_t i = 0; i < site->n_batch; i++) {
		size_t d = text_distance(code, site->batch[i].code);

		if (strcmp(site->batch[i].code, code) == 0) {
			*index = i;
			return ERR_NONE;
		}
		if (d < least) {
			least = d;
			near = site->batch[i].code;
		}
	}
	return err_report(err, ERR_NOT_FOUND, "batch",
		"There is no batch \"%.40s\" in the book.%s%.40s%s", code,
		near != NULL ? err_say(err, " The nearest is \"") : "",
		near != NULL ? near : "", near != NULL ? "\"." : "");
}

static enum err_code
put_pieces(const struct desk *desk, struct arena *arena,
	const struct book_specimen *like, struct labels *labels,
	const char **code, size_t n, struct err *err)
{
	for (size_t i = 0; i < n; i++) {
		struct book_specimen row = *like;

		code[i] = next_label(labels, arena);
		if (code[i] == NULL)
			return err_memory(err);
		row.code = code[i];
		TRY(book_put_specimen(desk->book, &row, err));
	}
	return ERR_NONE;
}

static const char *
day_text(struct arena *arena, int64_t at_s)
{
	char day[DATE_TEXT_MAX];

	date_write_day(at_s, 0, day);
	return arena_text(arena, day);
}

static void
tell_dates(struct arena *arena, const struct book_batch *batch,
	struct work_pieces_told *out)
{
	struct err odd = {.code = ERR_NONE};
	int64_t cast = 0;

	out->cast_on = out->due_on = "";
	if (batch->made_on[0] == '\0' ||
		date_read(batch->made_on, 0, &cast, &odd) != ERR_NONE)
		return;
	out->cast_on = day_text(arena, cast);
	out->due_on = day_text(arena, cast + (int64_t)out->test_age_s);
}

static struct book_specimen
piece_like(const struct work_pieces_ask *ask, const struct book_batch *batch,
	const struct book_form *form, double test_age_s)
{
	return (struct book_specimen){.row = {.typed = ask->typed},
		.batch_id = batch->row.id,
		.form = form->shape,
		.width_m = form->width_m,
		.depth_m = {true, form->depth_m},
		.length_m = form->length_m,
		.diameter_m = form->diameter_m,
		.fate = "waiting",
		.reinforced = ask->reinforced,
		.remark = "",
		.form_id = form->row.id,
		.test_age_s = {true, test_age_s},
		.damage = ""};
}

enum err_code
work_pieces_put(const struct desk *desk, struct arena *arena,
	const struct work_pieces_ask *ask, struct work_pieces_told *out,
	struct err *err)
{
	struct work_pieces_told told = {.n = (size_t)ask->count.value,
		.test_age_s = ask->test_age_s.has ? ask->test_age_s.value
						  : usual_test_age_s};
	struct labels labels = {0};
	struct book_specimen like;
	struct work_bench bench;
	const char **code;
	size_t batch, form;

	TRY(check_pieces(ask, err));
	TRY(work_bench_read(desk, arena, &bench, err));
	TRY(find_batch(&bench.site, ask->batch, &batch, err));
	TRY(work_find_form(&bench, ask->form, &form, err));
	TRY(book_all_gone(
		desk->book, arena, &labels.gone, &labels.n_gone, err));
	labels.site = &bench.site;
	labels.next = bench.site.n_specimen;
	code = arena_take(arena, told.n, sizeof *code);
	if (code == NULL)
		return err_memory(err);
	like = piece_like(ask, &bench.site.batch[batch], &bench.form[form],
		told.test_age_s);
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "pieces",
		desk->submission, err));
	TRY(work_commit_or_undo(desk, ask->batch,
		put_pieces(desk, arena, &like, &labels, code, told.n, err),
		err));
	told.code = code;
	tell_dates(arena, &bench.site.batch[batch], &told);
	*out = told;
	return ERR_NONE;
}

/* ---- one piece ---- */

static size_t
readings_of(const struct work_site *site, size_t piece)
{
	size_t n = 0;

	for (size_t i = 0; i < site->n_reading; i++)
		n += site->reading_specimen[i] == piece &&
			strcmp(site->reading[i].kind, "weighing") != 0;
	return n;
}

static enum err_code
check_fate(const struct work_bench *bench, size_t piece,
	const struct work_piece_ask *ask, struct err *err)
{
	if (ask->fate == NULL)
		return ERR_NONE;
	if (!is_one_of(ask->fate, fates, sizeof fates / sizeof fates[0]))
		return err_report(err, ERR_INPUT, "--fate",
			"\"%.40s\" is no fate; it is waiting, tested, "
			"\"snapped "
			"at stripping\", \"snapped in handling\", accident, "
			"\"not filled\" or \"set aside\".",
			ask->fate);
	if ((strcmp(ask->fate, "accident") == 0 ||
		    strcmp(ask->fate, "set aside") == 0) &&
		(ask->remark == NULL || ask->remark[0] == '\0'))
		return err_report(err, ERR_INPUT, "--remark",
			"Say why with --remark: without the reason an accident "
			"cannot be told from a weakness.");
	if (strcmp(ask->fate, "not filled") == 0 &&
		readings_of(&bench->site, piece) > 0)
		return err_report(err, ERR_CONFLICT, "--fate",
			"Test piece %s has readings in the book, so its form "
			"was filled. Withdraw the readings first if they "
			"belong to another piece.",
			bench->site.specimen[piece].code);
	return ERR_NONE;
}

static const struct book_form *
form_of(const struct work_bench *bench, const struct book_specimen *piece)
{
	for (size_t i = 0; i < bench->n_form; i++)
		if (bench->form[i].row.id == piece->form_id)
			return &bench->form[i];
	return NULL;
}

static enum err_code
take_heights(const struct work_bench *bench, const struct work_piece_ask *ask,
	struct book_specimen *row, struct err *err)
{
	const struct book_form *form = form_of(bench, row);
	double sum = 0;

	if (ask->n_height == 0)
		return ERR_NONE;
	if (ask->n_height != WORK_QUARTERS)
		return err_report(err, ERR_INPUT, "--height",
			"Read the height at four places, in the middle of each "
			"quarter of the length, and give --height four times; "
			"it was given %zu times.",
			ask->n_height);
	for (size_t i = 0; i < WORK_QUARTERS; i++) {
		double h = ask->height_m[i].value;

		if (!(h > 0) ||
			(form != NULL && h > swollen_most * form->depth_m))
			return err_report(err, ERR_INPUT, "--height",
				"A height of %g mm cannot be in form %s, which "
				"is %g mm high; it takes more than 0 and up to "
				"a fifth above the rim.",
				h * 1000, form != NULL ? form->code : "",
				form != NULL ? form->depth_m * 1000 : 0);
		row->height_m[i] = ask->height_m[i];
		sum += h;
	}
	row->depth_m = (struct maybe){true, sum / WORK_QUARTERS};
	return ERR_NONE;
}

static enum err_code
check_sizes(const struct work_piece_ask *ask, struct err *err)
{
	const struct {
		const char *option;
		struct maybe value;
	} of[] = {{"--width", ask->width_m}, {"--depth", ask->depth_m},
		{"--length", ask->length_m}, {"--diameter", ask->diameter_m},
		{"--mass", ask->mass_kg}, {"--test-age", ask->test_age_s}};

	for (size_t i = 0; i < sizeof of / sizeof of[0]; i++)
		if (of[i].value.has && !(of[i].value.value > 0))
			return err_report(err, ERR_INPUT, of[i].option,
				"%s must be more than nothing; leave it out "
				"where it is not known.",
				of[i].option);
	return ERR_NONE;
}

static enum err_code
fill_piece(const struct work_bench *bench, size_t piece,
	const struct desk *desk, const struct work_piece_ask *ask,
	struct book_specimen *row, struct err *err)
{
	struct maybe age;

	TRY(check_fate(bench, piece, ask, err));
	TRY(check_sizes(ask, err));
	TRY(work_age_of(
		&bench->site, piece, ask->on, desk->now_utc_s, &age, err));
	TRY(take_heights(bench, ask, row, err));
	overlay(&row->width_m, &ask->width_m);
	overlay(&row->depth_m, &ask->depth_m);
	overlay(&row->length_m, &ask->length_m);
	overlay(&row->diameter_m, &ask->diameter_m);
	overlay(&row->mass_kg, &ask->mass_kg);
	overlay(&row->moisture_ratio, &ask->moisture_ratio);
	overlay(&row->test_age_s, &ask->test_age_s);
	row->remark = ask->remark != NULL ? ask->remark : row->remark;
	row->damage = ask->damage != NULL ? ask->damage : row->damage;
	row->row.typed = ask->typed;
	if (ask->fate == NULL)
		return ERR_NONE;
	row->fate = ask->fate;
	row->fate_age_s = strcmp(ask->fate, "waiting") == 0
		? (struct maybe){.has = false}
		: age;
	return ERR_NONE;
}

/* ---- told ---- */

enum { SENTENCES_MOST = 6 };

static void
say(const char **sentence, struct work_piece_told *told, const char *text)
{
	if (text != NULL && told->n_sentence < SENTENCES_MOST)
		sentence[told->n_sentence++] = text;
}

static void
tell_loss(struct arena *arena, const char **sentence,
	struct work_piece_told *told)
{
	const struct book_specimen *p = &told->bench.site.specimen[told->piece];
	const struct book_form *form = form_of(&told->bench, p);
	double sum = 0, low = INFINITY, high = 0;

	if (form == NULL || !p->height_m[0].has)
		return;
	for (size_t i = 0; i < WORK_QUARTERS; i++) {
		sum += p->height_m[i].value;
		low = fmin(low, p->height_m[i].value);
		high = fmax(high, p->height_m[i].value);
	}
	told->has_loss = true;
	told->loss_ratio = 1 - sum / WORK_QUARTERS / form->depth_m;
	say(sentence, told,
		text_format(arena,
			"It lost %.1f %% of its height; the four quarters are "
			"%.1f mm apart.",
			told->loss_ratio * 100, (high - low) * 1000));
	if (told->loss_ratio > sunk_other_ratio)
		say(sentence, told,
			N_("It sank so far that it is of another, denser "
			   "material: keep and label it, compare it apart."));
	else if (told->loss_ratio > sunk_far_ratio)
		say(sentence, told,
			N_("That is much; look whether the foam or "
			   "the form let go."));
	else if (told->loss_ratio > sunk_watch_ratio)
		say(sentence, told, N_("That is to be watched."));
}

static enum err_code
tell(const struct desk *desk, struct arena *arena,
	const struct work_piece_ask *ask, struct work_piece_told *told,
	struct err *err)
{
	const char **sentence = arena_take(
		arena, SENTENCES_MOST, sizeof *sentence);
	const struct work_bench_note *note;
	size_t n_note;

	if (sentence == NULL)
		return err_memory(err);
	TRY(work_bench_read(desk, arena, &told->bench, err));
	TRY(work_find_piece(&told->bench, ask->code, &told->piece, err));
	tell_loss(arena, sentence, told);
	TRY(work_bench_notes(arena, &told->bench, &note, &n_note, err));
	for (size_t i = 0; ask->fate != NULL && i < n_note; i++)
		if (note[i].specimen == told->piece && note[i].kind[0] == '\0')
			say(sentence, told,
				text_format(arena, "%s: %s; %s.", note[i].what,
					note[i].value, note[i].from));
	told->sentence = sentence;
	return ERR_NONE;
}

enum err_code
work_piece_put(const struct desk *desk, struct arena *arena,
	const struct work_piece_ask *ask, struct work_piece_told *out,
	struct err *err)
{
	struct work_piece_told told = {.n_sentence = 0};
	struct book_specimen row;
	struct work_bench bench;
	size_t piece;

	TRY(work_bench_read(desk, arena, &bench, err));
	TRY(work_find_piece(&bench, ask->code, &piece, err));
	row = bench.site.specimen[piece];
	TRY(fill_piece(&bench, piece, desk, ask, &row, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "piece",
		desk->submission, err));
	TRY(work_commit_or_undo(
		desk, row.code, book_put_specimen(desk->book, &row, err), err));
	TRY(tell(desk, arena, ask, &told, err));
	*out = told;
	return ERR_NONE;
}
