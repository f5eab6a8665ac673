/* warn.h - which of the rules that warn speak now, and of what. */
#ifndef WORK_WARN_H
#define WORK_WARN_H

#include "work/mixer.h"

struct work_fired_list {
	struct work_fired *fired;
	size_t n, room;
	bool failed; /* memory ran out */
};

/* A set of rules: bit k is W(k+1). */
#define WORK_RULE(code) (1U << (unsigned)(code))
static const unsigned work_every_rule = ~0U;

/* work_warn_batch(m, arena, batch, rules, now_utc_s, list): what speaks of one
 * batch, of those rules that are on and in `rules`: W1 to W5, W8 to W10, W15,
 * W22, W26.  now_utc_s 0: how long ago the foam was weighed is not looked at.
 * The list is added to; list->failed tells that memory ran out. */
void work_warn_batch(const struct work_mixer *m, struct arena *arena,
	size_t batch, unsigned rules, int64_t now_utc_s,
	struct work_fired_list *list);

/* work_warn_mix(m, arena, mix, foam_share, wet, dry, list): W6 and W7 of a mix
 * with that share of foam and those densities (kg/m3). */
void work_warn_mix(const struct work_mixer *m, struct arena *arena, size_t mix,
	double foam_share, double wet, double dry,
	struct work_fired_list *list);

/* work_warn_cement(m, arena, mix, now_utc_s, list): W25 of the cements of a mix,
 * by the last lot that was bought. */
void work_warn_cement(const struct work_mixer *m, struct arena *arena,
	size_t mix, int64_t now_utc_s, struct work_fired_list *list);

/* work_warn_foam_due(m, arena, generator_id, place, subject, now_utc_s, list):
 * W2 before the batch at that place among all is made. */
void work_warn_foam_due(const struct work_mixer *m, struct arena *arena,
	int64_t generator_id, size_t place, const char *subject,
	int64_t now_utc_s, struct work_fired_list *list);

/* One line of the list of rules. */
struct work_rule_told {
	struct work_warning w;
	const struct work_fired *fired;
	size_t n_fired;
};

struct work_warned {
	struct work_mixer m;
	struct work_rule_told rule[CONTROL_WARNING_COUNT];
	size_t n_fired, n_on;
};

/* work_warn(desk, arena, out, err): every rule, and all that it says of the whole
 * book; nothing is written. */
enum err_code work_warn(const struct desk *desk, struct arena *arena,
	struct work_warned *out, struct err *err) MUST_CHECK;

/* For warn_book.c and the deeds: work_fire(list, arena, w, subject, sentence)
 * adds, if the rule is on; sentence NULL: memory ran out. */
void work_fire(struct work_fired_list *list, struct arena *arena,
	const struct work_warnings *all, enum control_warning_code code,
	const char *subject, const char *sentence);

/* work_warn_corrections(m, arena, list): W30. */
void work_warn_corrections(const struct work_mixer *m, struct arena *arena,
	struct work_fired_list *list);

/* work_warn_book(m, arena, now_utc_s, list): the rules that look at trials,
 * pieces, readings, decisions and parts: W11 to W14, W16 to W20, W24, W30. */
void work_warn_book(const struct work_mixer *m, struct arena *arena,
	const struct book_prediction *prediction, size_t n_prediction,
	int64_t now_utc_s, struct work_fired_list *list);

#endif /* WORK_WARN_H */
