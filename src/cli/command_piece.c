/* command_piece.c - form, pieces, piece: from the form to the test. */
#include "cli/fields.h"
#include "cli/table.h"

#include "work/piece.h"
#include "work/shelf.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* ---- form ---- */

enum { SIZES_MOST = 3 };

/* "100 mm x 75 mm x 700 mm" */
static enum err_code
read_sizes(const struct invocation *in, const char *text,
	double size_m[SIZES_MOST], size_t *n, struct err *err)
{
	char *copy = arena_text(in->arena, text), *next;

	*n = 0;
	if (copy == NULL)
		return err_memory(err);
	for (char *part = copy; part != NULL; part = next) {
		next = strstr(part, " x ");
		if (next != NULL) {
			*next = '\0';
			next += strlen(" x ");
		}
		if (*n == SIZES_MOST)
			return err_report(err, ERR_INPUT, "--inner",
				"--inner \"%.60s\" has more than three sizes.",
				text);
		TRY(unit_read(part, UNIT_LENGTH, NULL, &size_m[*n], err));
		if (!(size_m[*n] > 0))
			return err_report(err, ERR_INPUT, "--inner",
				"--inner \"%.60s\": every size must be more "
				"than nothing.",
				text);
		(*n)++;
	}
	return ERR_NONE;
}

static enum err_code
read_inner(
	const struct invocation *in, struct work_form_ask *ask, struct err *err)
{
	const char *text = invocation_value(in, "--inner");
	bool is_cube = ask->shape != NULL && strcmp(ask->shape, "cube") == 0;
	double m[SIZES_MOST];
	size_t n;

	if (text == NULL)
		return ERR_NONE;
	TRY(read_sizes(in, text, m, &n, err));
	if (n == 1 && is_cube) {
		m[1] = m[2] = m[0];
		n = SIZES_MOST;
	}
	if (n == 2) {
		ask->diameter_m = (struct maybe){true, m[0]};
		ask->depth_m = (struct maybe){true, m[1]};
		return ERR_NONE;
	}
	if (n != SIZES_MOST)
		return err_report(err, ERR_INPUT, "--inner",
			"--inner \"%.60s\": give width, height as filled and "
			"length, \"100 mm x 75 mm x 700 mm\"; of a cylinder "
			"diameter and height, \"100 mm x 200 mm\"; of a cube "
			"one side.",
			text);
	ask->width_m = (struct maybe){true, m[0]};
	ask->depth_m = (struct maybe){true, m[1]};
	ask->length_m = (struct maybe){true, m[2]};
	return ERR_NONE;
}

static const struct command_option form_options[] = {
	{"--shape", "SHAPE", "beam, panel, cube, cylinder, prism, bar, other",
		false},
	{"--inner", "SIZES", "width x height as filled x length, inside",
		false},
	{"--note", "TEXT", "a remark", false}, {0}};

static enum err_code
run_form(const struct invocation *in, struct err *err)
{
	struct work_form_ask ask = {.code = in->word[1],
		.shape = invocation_value(in, "--shape"),
		.note = invocation_value(in, "--note"),
		.typed = fields_typed(in)};
	struct desk desk;
	enum err_code code;
	bool made = false;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(read_inner(in, &ask, err));
	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = work_form_put(&desk, in->arena, &ask, &made, err);
	desk_close(&desk);
	if (code == ERR_NONE && in->json)
		(void)printf("{\"made\": %s}\n", made ? "true" : "false");
	else if (code == ERR_NONE)
		(void)printf("%s form %s.\n", made ? "Entered" : "Corrected",
			in->word[1]);
	return code;
}

const struct command command_form = {
	.name = "form",
	.line = "enters a form for test pieces, with its inner sizes",
	.help = "  foamwright form BOOK CODE --shape SHAPE --inner SIZES\n\n"
		"A panel's height as filled is its thickness. A cylinder has "
		"diameter x height.\n",
	.example = "foamwright form site.book B1 --shape beam --inner \"100 mm "
		   "x 75 mm x 700 mm\"",
	.least_words = 2,
	.most_words = 2,
	.options = form_options,
	.run = run_form,
	.writes = true,
};

/* ---- pieces ---- */

#define AT(member) offsetof(struct work_pieces_ask, member)
static const struct field pieces_fields[] = {
	{"--form", FIELD_TEXT, UNIT_NUMBER, AT(form)},
	{"--count", FIELD_WHOLE, UNIT_NUMBER, AT(count)},
	{"--test-age", FIELD_MAYBE, UNIT_TIME, AT(test_age_s)},
};
#undef AT

static const struct command_option pieces_options[] = {
	{"--form", "CODE", "what they were cast in", false},
	{"--count", "N", "how many, empty forms too", false},
	{"--test-age", "TIME", "how old at the test (28 d)", false},
	{"--reinforced", NULL, "mesh or wires lie in them", false}, {0}};

static enum err_code
print_pieces_json(const struct invocation *in,
	const struct work_pieces_told *told, struct err *err)
{
	struct text text;
	struct jsonout json;

	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	jsonout_key(&json, "pieces");
	jsonout_open_array(&json);
	for (size_t i = 0; i < told->n; i++)
		jsonout_string(&json, told->code[i]);
	jsonout_close_array(&json);
	if (told->due_on[0] != '\0')
		jsonout_key_string(&json, "due", told->due_on);
	jsonout_close_object(&json);
	if (jsonout_failed(&json))
		return err_memory(err);
	(void)puts(text.bytes);
	return ERR_NONE;
}

static void
print_pieces(const struct work_pieces_told *told)
{
	for (size_t i = 0; i < told->n; i++)
		(void)printf("%s%s", i > 0 ? "  " : "", told->code[i]);
	(void)puts("");
	if (told->due_on[0] != '\0')
		(void)printf("Cast on %s, to be tested on %s, at %.0f days.\n",
			told->cast_on, told->due_on,
			told->test_age_s / work_day_s);
	else
		(void)puts("The batch has no date yet: \"foamwright batch BOOK "
			   "CODE --on DATE\" gives one.");
	(void)puts("Write them on the pieces, with a marker, before the forms "
		   "come off.");
}

static enum err_code
run_pieces(const struct invocation *in, struct err *err)
{
	struct work_pieces_ask ask = {.batch = in->word[1],
		.reinforced = invocation_has(in, "--reinforced"),
		.typed = fields_typed(in)};
	struct work_pieces_told told;
	struct desk desk;
	enum err_code code;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(fields_read(in, pieces_fields, COUNT(pieces_fields), &ask, err));
	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = work_pieces_put(&desk, in->arena, &ask, &told, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_pieces_json(in, &told, err);
	print_pieces(&told);
	return ERR_NONE;
}

const struct command command_pieces = {
	.name = "pieces",
	.line = "registers the test pieces of a batch, each with its marking",
	.help = "  foamwright pieces BOOK BATCH --form CODE --count N "
		"[OPTIONS]\n\nA marking ends in a character that checks it: "
		"one wrong character, or two\nswapped, is found when it is "
		"typed.\n",
	.example = "foamwright pieces site.book T-01 --form B1 --count 3",
	.least_words = 2,
	.most_words = 2,
	.options = pieces_options,
	.run = run_pieces,
	.writes = true,
};

/* ---- piece ---- */

#define AT(member) offsetof(struct work_piece_ask, member)
static const struct field piece_fields[] = {
	{"--fate", FIELD_TEXT, UNIT_NUMBER, AT(fate)},
	{"--on", FIELD_DATE, UNIT_NUMBER, AT(on)},
	{"--remark", FIELD_TEXT, UNIT_NUMBER, AT(remark)},
	{"--damage", FIELD_TEXT, UNIT_NUMBER, AT(damage)},
	{"--width", FIELD_MAYBE, UNIT_LENGTH, AT(width_m)},
	{"--depth", FIELD_MAYBE, UNIT_LENGTH, AT(depth_m)},
	{"--length", FIELD_MAYBE, UNIT_LENGTH, AT(length_m)},
	{"--diameter", FIELD_MAYBE, UNIT_LENGTH, AT(diameter_m)},
	{"--mass", FIELD_MAYBE, UNIT_MASS, AT(mass_kg)},
	{"--moisture", FIELD_MAYBE, UNIT_RATIO, AT(moisture_ratio)},
	{"--test-age", FIELD_MAYBE, UNIT_TIME, AT(test_age_s)},
};
#undef AT

static const struct command_option piece_options[] = {
	{"--height", "LENGTH", "at a quarter of the length; four times", true},
	{"--fate", "FATE",
		"waiting, tested, \"snapped at stripping\", \"snapped in "
		"handling\", accident, \"not filled\", \"set aside\"",
		false},
	{"--on", "DATE", "when that was", false},
	{"--damage", "TEXT", "chips and cracks", false},
	{"--remark", "TEXT", "a remark; why it was set aside", false},
	{"--width", "LENGTH", "as measured", false},
	{"--depth", "LENGTH", "as measured; else the mean of the heights",
		false},
	{"--length", "LENGTH", "as measured", false},
	{"--diameter", "LENGTH", "as measured", false},
	{"--mass", "MASS", "on the day of the test", false},
	{"--moisture", "SHARE", "water by dry mass, at the test", false},
	{"--test-age", "TIME", "how old it is to be at the test", false}, {0}};

static enum err_code
read_heights(const struct invocation *in, struct work_piece_ask *ask,
	struct err *err)
{
	size_t at = 0;

	for (const char *text = invocation_next(in, "--height", &at);
		text != NULL; text = invocation_next(in, "--height", &at)) {
		double m;

		TRY(unit_read(text, UNIT_LENGTH, NULL, &m, err));
		if (ask->n_height < WORK_QUARTERS)
			ask->height_m[ask->n_height] = (struct maybe){true, m};
		ask->n_height++;
	}
	return ERR_NONE;
}

static enum err_code
print_piece(const struct invocation *in, const struct work_piece_told *told,
	struct err *err)
{
	const struct book_specimen *p = &told->bench.site.specimen[told->piece];
	struct text text;
	struct jsonout json;

	if (!in->json) {
		(void)printf("%s, %s: %s.\n", p->code,
			work_piece_sized(in->arena, p), p->fate);
		for (size_t i = 0; i < told->n_sentence; i++)
			print_folded(stdout, 0, told->sentence[i]);
		return ERR_NONE;
	}
	text_init(&text, in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	jsonout_key_string(&json, "piece", p->code);
	jsonout_key_string(&json, "fate", p->fate);
	if (told->has_loss)
		jsonout_key_number(&json, "settling_loss", told->loss_ratio);
	jsonout_key(&json, "sentences");
	jsonout_open_array(&json);
	for (size_t i = 0; i < told->n_sentence; i++)
		jsonout_string(&json, told->sentence[i]);
	jsonout_close_array(&json);
	jsonout_close_object(&json);
	if (jsonout_failed(&json))
		return err_memory(err);
	(void)puts(text.bytes);
	return ERR_NONE;
}

static enum err_code
run_piece(const struct invocation *in, struct err *err)
{
	struct work_piece_ask ask = {
		.code = in->word[1], .typed = fields_typed(in)};
	struct work_piece_told told;
	struct desk desk;
	enum err_code code;

	if (ask.typed == NULL)
		return err_memory(err);
	if (in->n_given == 0)
		return err_report(err, ERR_INPUT, "--fate",
			"Say what is known of the piece: --height four times, "
			"--fate, --mass, --damage.");
	TRY(fields_read(in, piece_fields, COUNT(piece_fields), &ask, err));
	TRY(read_heights(in, &ask, err));
	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = work_piece_put(&desk, in->arena, &ask, &told, err);
	desk_close(&desk);
	return code == ERR_NONE ? print_piece(in, &told, err) : code;
}

const struct command command_piece = {
	.name = "piece",
	.line = "says what became of a test piece: heights, damage, fate",
	.help = "  foamwright piece BOOK PIECE OPTIONS\n\nEvery one cast has a "
		"fate; one that snapped is a result, not a gap.\n",
	.example = "foamwright piece site.book K7MD --fate \"snapped at "
		   "stripping\" --on 2026-03-02",
	.least_words = 2,
	.most_words = 2,
	.options = piece_options,
	.run = run_piece,
	.writes = true,
};
