/* bench.c - one view for the deeds at the bench, and what is looked up in it. */
#include "work/bench.h"

#include "book/book.h"
#include "core/date.h"
#include "core/text.h"
#include "core/unit.h"
#include "lab/label.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { NEAREST_MOST = 3, FAR = 3, LABEL_FAR = 3 };

enum err_code
work_bench_read(const struct desk *desk, struct arena *arena,
	struct work_bench *out, struct err *err)
{
	struct work_bench b = {0};

	TRY(work_site_read(desk->book, arena, &b.site, err));
	TRY(book_all_form(desk->book, arena, &b.form, &b.n_form, err));
	TRY(book_all_bending_session(
		desk->book, arena, &b.session, &b.n_session, err));
	TRY(book_all_bending_step(desk->book, arena, &b.step, &b.n_step, err));
	TRY(book_all_placing(desk->book, arena, &b.placing, &b.n_placing, err));
	*out = b;
	return ERR_NONE;
}

/* ---- what is looked up ---- */

struct nearest {
	const char *code[NEAREST_MOST];
	size_t distance[NEAREST_MOST];
	size_t n;
};

static void
offer(struct nearest *near, const char *code, size_t distance, size_t far)
{
	size_t at = near->n;

	if (distance >= far)
		return;
	while (at > 0 && near->distance[at - 1] > distance)
		at--;
	if (at >= NEAREST_MOST)
		return;
	if (near->n < NEAREST_MOST)
		near->n++;
	for (size_t i = near->n - 1; i > at; i--) {
		near->code[i] = near->code[i - 1];
		near->distance[i] = near->distance[i - 1];
	}
	near->code[at] = code;
	near->distance[at] = distance;
}

static void
write_nearest(const struct nearest *near, char *out, size_t room)
{
	size_t n = 0;

	out[0] = '\0';
	for (size_t i = 0; i < near->n && n < room; i++) {
		int k = snprintf(out + n, room - n, "%s%.40s",
			i == 0 ? " The nearest: " : ", ", near->code[i]);

		n += k > 0 ? (size_t)k : 0;
	}
	if (near->n > 0 && n + 1 < room) {
		out[n] = '.';
		out[n + 1] = '\0';
	}
}

enum err_code
work_find_form(const struct work_bench *bench, const char *code, size_t *index,
	struct err *err)
{
	struct nearest near = {.n = 0};
	char offered[160];

	for (size_t i = 0; i < bench->n_form; i++) {
		if (strcmp(bench->form[i].code, code) == 0) {
			*index = i;
			return ERR_NONE;
		}
		offer(&near, bench->form[i].code,
			text_distance(code, bench->form[i].code), FAR);
	}
	write_nearest(&near, offered, sizeof offered);
	return err_report(err, ERR_NOT_FOUND, "form",
		"There is no form \"%.40s\" in the book.%s%s", code, offered,
		bench->n_form == 0
			? err_say(err,
				  " \"foamwright form BOOK CODE --shape "
				  "beam --inner ...\" enters one.")
			: "");
}

enum err_code
work_find_rig(const struct work_bench *bench, const char *code, size_t *index,
	struct err *err)
{
	const struct work_site *s = &bench->site;
	struct nearest near = {.n = 0};
	char offered[160];

	for (size_t i = 0; i < s->n_rig; i++) {
		if (strcmp(s->rig[i].code, code) == 0) {
			*index = i;
			return ERR_NONE;
		}
		offer(&near, s->rig[i].code,
			text_distance(code, s->rig[i].code), FAR);
	}
	write_nearest(&near, offered, sizeof offered);
	return err_report(err, ERR_NOT_FOUND, "rig",
		"There is no rig \"%.40s\" in the book.%s%s", code, offered,
		s->n_rig == 0
			? err_say(err,
				  " \"foamwright rig BOOK CODE --test bending "
				  "--span ...\" enters one.")
			: "");
}

/* Labels are written in capitals. */
static void
capitals(const char *code, char *out, size_t room)
{
	size_t n = 0;

	for (; code[n] != '\0' && n + 1 < room; n++)
		out[n] = code[n] >= 'a' && code[n] <= 'z'
			? (char)(code[n] - 'a' + 'A')
			: code[n];
	out[n] = '\0';
}

static bool
has_piece(const struct work_bench *bench, const char *code, size_t *index)
{
	for (size_t i = 0; i < bench->site.n_specimen; i++) {
		if (strcmp(bench->site.specimen[i].code, code) == 0) {
			*index = i;
			return true;
		}
	}
	return false;
}

enum err_code
work_find_piece(const struct work_bench *bench, const char *code, size_t *index,
	struct err *err)
{
	struct nearest near = {.n = 0};
	char offered[160], label[LAB_LABEL_MAX];
	enum lab_label is = lab_label_check(code);

	if (has_piece(bench, code, index))
		return ERR_NONE;
	capitals(code, label, sizeof label);
	if (is == LAB_LABEL_GOOD && has_piece(bench, label, index))
		return ERR_NONE;
	for (size_t i = 0; i < bench->site.n_specimen; i++)
		offer(&near, bench->site.specimen[i].code,
			text_distance(is == LAB_LABEL_FOREIGN ? code : label,
				bench->site.specimen[i].code),
			is == LAB_LABEL_FOREIGN ? FAR : LABEL_FAR);
	write_nearest(&near, offered, sizeof offered);
	if (is == LAB_LABEL_MISTYPED)
		return err_report(err, ERR_INPUT, "piece",
			"\"%.40s\" is mistyped: its last character does not "
			"go with the others. Read the marking again.%s",
			code, offered);
	return err_report(err, ERR_NOT_FOUND, "piece",
		"There is no test piece \"%.40s\" in the book.%s%s", code,
		offered,
		bench->site.n_specimen == 0
			? err_say(err,
				  " \"foamwright pieces BOOK BATCH --form CODE "
				  "--count "
				  "3\" registers some.")
			: "");
}

/* ---- age ---- */

bool
work_cast_on(const struct work_site *site, size_t piece, int64_t *cast_s)
{
	const struct book_batch *b = &site->batch[site->specimen_batch[piece]];
	struct err odd = {.code = ERR_NONE};

	return b->made_on[0] != '\0' &&
		date_read(b->made_on, 0, cast_s, &odd) == ERR_NONE;
}

enum err_code
work_age_of(const struct work_site *site, size_t piece, const char *on,
	int64_t now_s, struct maybe *age_s, struct err *err)
{
	int64_t at = now_s, cast = 0, day = (int64_t)work_day_s;
	char tested[DATE_TEXT_MAX], made[DATE_TEXT_MAX];

	if (on != NULL)
		TRY(date_read(on, 0, &at, err));
	*age_s = (struct maybe){.has = false};
	if (!work_cast_on(site, piece, &cast))
		return ERR_NONE;
	if (at / day < cast / day) {
		date_write_day(at, 0, tested);
		date_write_day(cast, 0, made);
		return err_report(err, ERR_INPUT, "--on",
			"Test piece %s was cast on %s; it cannot have been "
			"read on %s. Give the day with --on, or correct the "
			"batch with \"foamwright batch BOOK %s --on DATE\".",
			site->specimen[piece].code, made, tested,
			site->batch[site->specimen_batch[piece]].code);
	}
	*age_s = (struct maybe){true, fmax(0, (double)(at - cast))};
	return ERR_NONE;
}

/* ---- words ---- */

const char *
work_piece_sized(struct arena *arena, const struct book_specimen *p)
{
	const struct maybe *of[] = {&p->width_m, &p->depth_m, &p->length_m};
	struct text text;
	bool some = false;

	text_init(&text, arena);
	text_add(&text, arena_say(arena, p->form));
	if (p->diameter_m.has) {
		text_addf(&text, " %s dia",
			unit_digits(arena, p->diameter_m.value * 1000, 3));
		some = true;
	}
	for (size_t i = 0; i < 3; i++) {
		if (!of[i]->has)
			continue;
		text_addf(&text, "%s%s", some ? " x " : " ",
			unit_digits(arena, of[i]->value * 1000, 3));
		some = true;
	}
	if (some)
		text_add(&text, " mm");
	return text_failed(&text) ? arena_say(arena, p->form) : text.bytes;
}
