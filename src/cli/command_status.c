/* command_status.c - where the job stands, and the next command. */
#include "cli/command.h"
#include "cli/table.h"

#include "work/shelf.h"
#include "work/status.h"

static enum err_code
print_json(const struct invocation *in, const struct work_status *s,
	struct err *err)
{
	const struct work_site *site = &s->due.bench.site;
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key_string(&json, "book", in->word[0]);
	jsonout_key_string(&json, "name", site->info.name);
	jsonout_key_count(&json, "mixes", site->n_mix);
	jsonout_key_count(&json, "batches", site->n_batch);
	jsonout_key_count(&json, "pieces", site->n_specimen);
	jsonout_key_count(&json, "readings", site->n_reading);
	jsonout_key_string(&json, "gallon", site->info.gallon);
	jsonout_key_count(&json, "parts", s->n_part);
	jsonout_key_count(&json, "decided", s->n_decided);
	jsonout_key(&json, "last_entry");
	jsonout_integer(&json, s->last.id);
	jsonout_key_string(&json, "last_at", s->last.at);
	jsonout_key_string(&json, "last_deed", s->last.what);
	jsonout_key_count(&json, "overdue", s->n_overdue);
	jsonout_key_count(&json, "due_today", s->n_today);
	jsonout_key_count(&json, "due_this_week", s->n_week);
	jsonout_key_count(&json, "drying", s->due.n_drying);
	jsonout_key_count(&json, "to_weigh", s->due.n_to_weigh);
	jsonout_key_string(&json, "next", s->next);
	jsonout_key_string(&json, "because", s->because);
	return json_finish(&json, err);
}

static void
print_status(const struct invocation *in, const struct desk *desk,
	const struct work_status *s)
{
	const struct work_site *site = &s->due.bench.site;
	struct arena *a = in->arena;

	print_folded(stdout, 0,
		text_format(a,
			"%s (%s): %zu mixes, %zu batches, %zu test "
			"pieces, %zu readings.",
			in->word[0], site->info.name, site->n_mix,
			site->n_batch, site->n_specimen, site->n_reading));
	print_folded(stdout, 0,
		text_format(a, "Last entry: %lld, %s%s%s, at %s by %s.",
			(long long)s->last.id, s->last.what,
			s->last.detail[0] != '\0' ? " " : "", s->last.detail,
			s->last.at, s->last.who));
	print_folded(stdout, 0,
		text_format(a,
			"To test: %zu overdue, %zu today, %zu within a week. "
			"Parts with their mix: %zu of %zu.",
			s->n_overdue, s->n_today, s->n_week, s->n_decided,
			s->n_part));
	if (desk->gallon != UNIT_GALLON_US)
		(void)printf("A gallon in it is one of the %s.\n",
			work_gallon_name(desk->gallon));
	if (s->due.n_to_weigh > 0)
		print_folded(stdout, 0,
			text_format(a,
				"Drying by a wall: %zu, and %zu to weigh today "
				"(\"foamwright drying\").",
				s->due.n_drying, s->due.n_to_weigh));
	for (size_t i = 0; i < s->due.n_drying; i++)
		print_folded(stdout, 0,
			work_drying_words(a, &s->due.bench, &s->due.drying[i]));
	(void)printf("Next, since %s: foamwright %s %s\n", s->because, s->next,
		s->takes_more ? "--help" : in->word[0]);
}

static enum err_code
run_status(const struct invocation *in, struct err *err)
{
	struct work_status status;
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_status(&desk, in->arena, &status, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(in, &status, err);
	print_status(in, &desk, &status);
	return ERR_NONE;
}

const struct command command_status = {
	.name = "status",
	.line = "where the job stands, what is due, and what comes next",
	.help = "  foamwright status BOOK\n",
	.example = "foamwright status site.book",
	.least_words = 1,
	.most_words = 1,
	.run = run_status,
};
