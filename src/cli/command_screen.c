/* command_screen.c - parts screened by mechanics. */
#include "cli/command.h"

#include "cli/table.h"
#include "choose/screening.h"
#include "work/choose.h"
#include "work/screen.h"

static const struct command_option options[] = {
	{"--part", "CODE", "that part alone", false},
	{"--mix", "CODE", "that mix, not the decided or likeliest", false},
	{"--show-work", NULL, "formula and source of each line", false},
	{"--seed", "N", "of the random draws (1)", false}, {0}};

static void
print_lines(const struct invocation *in, const struct work_screened_part *p)
{
	static const char *const heading[] = {
		"check", "holds, in 100", "used", "likely between"};
	struct table table;

	table_start(&table, in->arena, heading, 4, 0x6);
	for (size_t i = 0; i < p->n_line; i++) {
		const struct work_screened_line *l = &p->line[i];
		const char *cell[] = {l->name, "", "", ""};

		if (l->asks[0] != '\0') {
			cell[1] = "not screened";
		} else {
			cell[1] = l->is_exact
				? "by its size"
				: work_chance_words(in->arena, l->p_holds);
			cell[2] = text_format(
				in->arena, "%.0f %%", 100 * l->median);
			cell[3] = l->is_exact
				? ""
				: text_format(in->arena, "%.0f and %.0f %%",
					  100 * l->low, 100 * l->high);
		}
		table_row(&table, cell);
	}
	table_print(&table, stdout);
}

static void
print_notes(const struct invocation *in, const struct work_screened_part *p)
{
	bool work = invocation_has(in, "--show-work");

	for (size_t i = 0; i < p->n_line; i++) {
		const struct work_screened_line *l = &p->line[i];

		if (l->asks[0] != '\0')
			print_folded(stdout, 2,
				text_format(in->arena, "%s needs: %s.", l->name,
					l->asks));
		else if (l->note[0] != '\0')
			print_folded(stdout, 2,
				text_format(
					in->arena, "%s: %s", l->name, l->note));
		if (work)
			print_folded(stdout, 4,
				text_format(in->arena, "%s: used = %s; %s",
					l->name, l->formula, l->source));
	}
	if (p->has_pressure)
		print_folded(stdout, 2,
			text_format(in->arena,
				"A lift presses on its forms with %.2f kPa at "
				"the foot.%s",
				p->pressure_pa / 1000,
				work ? " Wet weight times g times height, the "
				       "full fluid head; ACI 347R-14, eq. 2.1."
				     : ""));
	else
		print_folded(stdout, 2,
			text_format(in->arena, "Pressure on forms needs: %s.",
				p->pressure_asks));
}

static void
print_part(const struct invocation *in, const struct work_screened *s,
	const struct work_screened_part *p)
{
	const struct work_site *site = &s->chosen.compared.site;

	(void)putchar('\n');
	print_folded(stdout, 0,
		text_format(in->arena,
			"%s (%s) of mix %s, %s; safety factor n = %.3g on the "
			"strength of the next batch; weight with %.0f %% of "
			"water; %zu batch%s behind the least founded.",
			site->part[p->part].name, site->part[p->part].code,
			site->mix[p->mix].code, p->why_mix, p->safety,
			100 * p->moisture_ratio, p->n_batch,
			p->n_batch == 1 ? "" : "es"));
	if (p->n_line == 0)
		print_folded(stdout, 2,
			"Nothing is screened for this kind of part.");
	else
		print_lines(in, p);
	print_notes(in, p);
}

static void
json_line(struct jsonout *json, const struct work_screened_line *l)
{
	jsonout_open_object(json);
	jsonout_key_string(json, "check", l->name);
	jsonout_key_string(json, "formula", l->formula);
	jsonout_key_string(json, "source", l->source);
	if (l->asks[0] != '\0') {
		jsonout_key_string(json, "needs", l->asks);
	} else {
		if (!l->is_exact)
			jsonout_key_number(json, "p_holds", l->p_holds);
		jsonout_key_number(json, "utilisation", l->median);
		jsonout_key_number(json, "utilisation_low", l->low);
		jsonout_key_number(json, "utilisation_high", l->high);
	}
	jsonout_close_object(json);
}

static enum err_code
print_json(const struct invocation *in, const struct work_screened *s,
	struct err *err)
{
	const struct work_site *site = &s->chosen.compared.site;
	struct text text;
	struct jsonout json;

	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	jsonout_key_string(&json, "note", choose_screening_only);
	jsonout_key(&json, "parts");
	jsonout_open_array(&json);
	for (size_t i = 0; i < s->n_part; i++) {
		const struct work_screened_part *p = &s->part[i];

		jsonout_open_object(&json);
		jsonout_key_string(&json, "part", site->part[p->part].code);
		jsonout_key_string(&json, "mix", site->mix[p->mix].code);
		jsonout_key_number(&json, "safety_factor", p->safety);
		if (p->has_pressure)
			jsonout_key_quantity(
				&json, "form_pressure", p->pressure_pa, "Pa");
		jsonout_key(&json, "checks");
		jsonout_open_array(&json);
		for (size_t k = 0; k < p->n_line; k++)
			json_line(&json, &p->line[k]);
		jsonout_close_array(&json);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_close_object(&json);
	if (jsonout_failed(&json))
		return err_report(err, ERR_NUMERIC, "screen",
			"The screening has no finite answer.");
	(void)puts(text.bytes);
	return ERR_NONE;
}

static enum err_code
run_screen(const struct invocation *in, struct err *err)
{
	const struct work_screen_ask ask = {
		.part = invocation_value(in, "--part"),
		.mix = invocation_value(in, "--mix")};
	struct work_screened got;
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], false, in, &desk, err));
	code = work_screen(&desk, in->arena, &ask, &got, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_json(in, &got, err);
	print_folded(stdout, 0, choose_screening_only);
	for (size_t i = 0; i < got.n_part; i++)
		print_part(in, &got, &got.part[i]);
	(void)putchar('\n');
	print_folded(stdout, 0,
		"Used over 100 % does not do. Openings, edges, holes, "
		"earthquake, fire and creep are not in it.");
	print_folded(stdout, 0, choose_screening_only);
	return ERR_NONE;
}

const struct command command_screen = {
	.name = "screen",
	.line = "parts screened by mechanics: a chance, never a bare yes",
	.help = "  foamwright screen BOOK [--part CODE] [--mix CODE] "
		"[--show-work]\n\nWith the strength that the next batch would "
		"have. What bears on a part is\nentered with \"foamwright "
		"part\"; what is missing is asked for by name.\n",
	.example = "foamwright screen site.book --part north --show-work",
	.least_words = 1,
	.most_words = 1,
	.options = options,
	.run = run_screen,
};
