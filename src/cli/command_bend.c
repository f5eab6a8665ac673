/* command_bend.c - bending, live: one key a weight; or told at once. */
#include "cli/fields.h"
#include "cli/table.h"
#include "cli/told.h"

#include "work/bend.h"
#include "work/shelf.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { LINE_MOST = 128 };

static const char control_c = 3, control_d = 4;

/* ---- what is typed: a key on a terminal, a line otherwise ---- */

struct keys {
	bool is_terminal;
	struct termios before;
};

static void
keys_start(struct keys *k)
{
	struct termios raw;

	k->is_terminal = isatty(STDIN_FILENO) == 1 &&
		tcgetattr(STDIN_FILENO, &k->before) == 0;
	if (!k->is_terminal)
		return;
	raw = k->before;
	raw.c_lflag &= ~(tcflag_t)(ICANON | ECHO | ISIG);
	raw.c_cc[VMIN] = 1;
	raw.c_cc[VTIME] = 0;
	(void)tcsetattr(STDIN_FILENO, TCSANOW, &raw);
}

static void
keys_end(const struct keys *k)
{
	if (k->is_terminal)
		(void)tcsetattr(STDIN_FILENO, TCSANOW, &k->before);
}

/* A line from standard input without buffering ahead; false at its end. */
static bool
read_line(char *line, size_t room)
{
	size_t n = 0;
	char c = '\0';
	ssize_t got = 0;

	while ((got = read(STDIN_FILENO, &c, 1)) == 1 && c != '\n')
		if (n + 1 < room)
			line[n++] = c;
	line[n] = '\0';
	return got == 1 || n > 0;
}

/* One key, but for those that begin a line: a weight of its own, a sag. */
static bool
read_key(const struct keys *k, char line[LINE_MOST])
{
	struct keys typed = *k;
	char c;
	bool good;

	if (!k->is_terminal)
		return read_line(line, LINE_MOST);
	if (read(STDIN_FILENO, &c, 1) != 1 || c == control_c || c == control_d)
		return false;
	line[0] = c == '\n' ? '\0' : c;
	line[1] = '\0';
	if (c != '+' && c != 's')
		return true;
	keys_end(k);
	(void)printf(c == 's' ? "sag: " : "weight: ");
	(void)fflush(stdout);
	good = read_line(line + 1, LINE_MOST - 1);
	keys_start(&typed);
	return good;
}

/* ---- what it means ---- */

struct session {
	const struct invocation *in;
	const struct desk *desk;
	struct work_bending *b;
	bool blind;
};

enum meaning { MEANS_STEP, MEANS_SAVE, MEANS_LEAVE, MEANS_NOTHING };

static char *
strip(char *line)
{
	size_t n;

	while (isspace((unsigned char)*line))
		line++;
	n = strlen(line);
	while (n > 0 && isspace((unsigned char)line[n - 1]))
		line[--n] = '\0';
	return line;
}

static enum err_code
read_weight(const struct session *s, const char *word,
	struct lab_hung_step *step, struct err *err)
{
	size_t nth = (size_t)(word[0] - '0');

	step->what = LAB_HUNG_ADDED;
	if (word[0] >= '1' && word[0] <= '9' && word[1] == '\0') {
		if (nth > s->b->n_weight)
			return err_report(err, ERR_INPUT, "weight",
				"There is no weight %zu in the set of %zu; a "
				"weight of its own is typed with its unit, "
				"such "
				"as \"2.5 kg\".",
				nth, s->b->n_weight);
		step->mass.kg = s->b->weight_kg[nth - 1];
		return ERR_NONE;
	}
	return unit_read(word[0] == '+' ? word + 1 : word, UNIT_MASS, NULL,
		&step->mass.kg, err);
}

static enum err_code
read_meaning(const struct session *s, char *word, struct lab_hung_step *step,
	enum meaning *meaning, struct err *err)
{
	static const struct {
		char key;
		enum lab_hung_what what;
	} keys[] = {{'c', LAB_HUNG_CRACKED}, {'f', LAB_HUNG_FELL},
		{'h', LAB_HUNG_HOLDING}, {'u', LAB_HUNG_UNDONE}};

	*step = (struct lab_hung_step){.at_s = (int64_t)time(NULL)};
	*meaning = MEANS_STEP;
	if (word[0] == '\0') {
		*meaning = s->b->hung.ended ? MEANS_SAVE : MEANS_NOTHING;
		return ERR_NONE;
	}
	if (strcmp(word, "q") == 0) {
		*meaning = MEANS_LEAVE;
		return ERR_NONE;
	}
	for (size_t i = 0; i < COUNT(keys); i++) {
		if (word[0] == keys[i].key && word[1] == '\0') {
			step->what = keys[i].what;
			return ERR_NONE;
		}
	}
	if (word[0] == 's') {
		step->what = LAB_HUNG_SAG;
		return unit_read(
			word + 1, UNIT_LENGTH, NULL, &step->sag.m, err);
	}
	return read_weight(s, word, step, err);
}

/* ---- what is shown ---- */

static void
print_opening(const struct session *s)
{
	const struct work_bending *b = s->b;
	const struct work_site *site = &b->bench.site;
	const struct book_specimen *p = &site->specimen[b->piece];

	(void)printf("%s, %s", p->code, work_piece_sized(s->in->arena, p));
	if (!s->blind)
		(void)printf(", mix %s",
			site->mix[site->batch_mix
					    [site->specimen_batch[b->piece]]]
				.code);
	(void)printf(". Span %g mm, hanger %g kg.\n", b->session.span_m * 1000,
		b->session.hanger_kg);
	for (size_t i = 0; i < b->n_weight; i++)
		(void)printf("%zu %g kg  ", i + 1, b->weight_kg[i]);
	(void)puts(
		"c cracked  f fell  h still holding  s sag  u undo  q leave");
	if (b->resumed)
		(void)printf("It goes on where it was: %zu weights, %.6g kg on "
			     "it.\n",
			b->hung.n_weight, b->hung.now_kg);
	else
		(void)puts("Hold each load as long as the others, 30 s; set "
			   "down, do not drop. No toes under it.");
}

static void
print_step(const struct session *s, const struct lab_hung_step *step)
{
	const struct lab_hung *h = &s->b->hung;

	switch (step->what) {
	case LAB_HUNG_ADDED:
		(void)printf(
			"+ %g kg: %.6g kg on it\n", step->mass.kg, h->now_kg);
		break;
	case LAB_HUNG_SAG:
		(void)printf("sag %g mm at %.6g kg\n", step->sag.m * 1000,
			h->now_kg);
		break;
	case LAB_HUNG_CRACKED:
		(void)printf("first crack between %.6g and %.6g kg\n",
			h->held_kg, h->broke_kg);
		break;
	case LAB_HUNG_FELL:
	case LAB_HUNG_HOLDING:
		(void)printf("%s at %.6g kg. Enter keeps it, u takes it "
			     "back.\n",
			step->what == LAB_HUNG_FELL ? "fell" : "still holding",
			h->now_kg);
		break;
	case LAB_HUNG_UNDONE:
		(void)printf("taken back: %.6g kg on it\n", h->now_kg);
		break;
	}
	(void)fflush(stdout);
}

/* ---- the session ---- */

/* Until the end is kept (*save) or the test is left. */
static enum err_code
go_through(struct session *s, const struct keys *k, bool *save, struct err *err)
{
	char line[LINE_MOST];
	struct lab_hung_step step;
	enum meaning meaning;

	*save = false;
	while (read_key(k, line)) {
		struct err odd = {.code = ERR_NONE};
		enum err_code code = read_meaning(
			s, strip(line), &step, &meaning, &odd);

		if (code == ERR_NONE && meaning == MEANS_LEAVE)
			return ERR_NONE;
		if (code == ERR_NONE && meaning == MEANS_SAVE)
			break;
		if (code == ERR_NONE && meaning == MEANS_STEP)
			code = work_bend_step(s->desk, s->b, &step, &odd);
		if (code == ERR_INPUT)
			(void)fprintf(s->in->json ? stderr : stdout, "%s\n",
				odd.text);
		else if (code != ERR_NONE)
			return err_report(err, code, odd.field, "%s", odd.text);
		else if (meaning == MEANS_STEP && !s->in->json)
			print_step(s, &step);
		(void)fflush(stdout);
	}
	*save = s->b->hung.ended;
	return ERR_NONE;
}

static enum err_code
live(const struct invocation *in, const struct desk *desk,
	const struct work_bend_ask *ask, struct err *err)
{
	struct work_bending *b = arena_take(in->arena, 1, sizeof *b);
	struct session s = {.in = in,
		.desk = desk,
		.b = b,
		.blind = invocation_has(in, "--blind")};
	struct work_test_told told;
	enum err_code code;
	struct keys k;
	bool save = false;

	if (b == NULL)
		return err_memory(err);
	TRY(work_bend_open(desk, in->arena, ask, b, err));
	if (!in->json)
		print_opening(&s);
	(void)fflush(stdout);
	keys_start(&k);
	code = go_through(&s, &k, &save, err);
	keys_end(&k);
	if (code != ERR_NONE)
		return code;
	if (!save && in->json)
		(void)printf("{\"left\": true, \"steps\": %zu}\n", b->n_step);
	else if (!save)
		(void)puts("Left as it is, all of it in the book; the same "
			   "command goes on.");
	if (!save)
		return ERR_NONE;
	TRY(work_bend_save(desk, in->arena, b, &told, err));
	return told_print(in, &told, err);
}

/* ---- told at once ---- */

#define AT(member) offsetof(struct work_test_ask, member)
#define BEND(member) AT(reading.bending.member)
static const struct field told_fields[] = {
	{"--on", FIELD_DATE, UNIT_NUMBER, AT(on)},
	{"--rig", FIELD_TEXT, UNIT_NUMBER, AT(rig)},
	{"--remark", FIELD_TEXT, UNIT_NUMBER, AT(reading.remark)},
	{"--loading", FIELD_TEXT, UNIT_NUMBER, BEND(loading)},
	{"--span", FIELD_MAYBE, UNIT_LENGTH, BEND(span_m)},
	{"--strap", FIELD_MAYBE, UNIT_LENGTH, BEND(strap_m)},
	{"--hanger", FIELD_MAYBE, UNIT_MASS, BEND(on_rig_kg)},
	{"--broke", FIELD_MAYBE, UNIT_MASS, BEND(broke_kg)},
	{"--hold", FIELD_MAYBE, UNIT_TIME, BEND(hold_s)},
	{"--after-held", FIELD_MAYBE, UNIT_MASS, BEND(after_held_kg)},
	{"--after-broke", FIELD_MAYBE, UNIT_MASS, BEND(after_broke_kg)},
	{"--sag", FIELD_MAYBE, UNIT_LENGTH, BEND(sag_m)},
	{"--width", FIELD_MAYBE, UNIT_LENGTH, AT(width_m)},
	{"--depth", FIELD_MAYBE, UNIT_LENGTH, AT(depth_m)},
	{"--length", FIELD_MAYBE, UNIT_LENGTH, AT(length_m)},
	{"--mass", FIELD_MAYBE, UNIT_MASS, AT(mass_kg)},
};
#undef AT
#undef BEND

static enum err_code
tell_at_once(
	const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_test_ask ask = {.piece = in->word[1],
		.typed = fields_typed(in),
		.reading = {.kind = "bending",
			.code = "1",
			.remark = "",
			.bending = {.loading = ""}}};
	const char *held = invocation_value(in, "--held");
	struct work_test_told told;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(fields_read(in, told_fields, COUNT(told_fields), &ask, err));
	if (held != NULL)
		TRY(unit_read(held, UNIT_MASS, NULL,
			&ask.reading.bending.held_kg, err));
	TRY(work_test_put(desk, in->arena, &ask, &told, err));
	return told_print(in, &told, err);
}

/* ---- the command ---- */

#define AT(member) offsetof(struct work_bend_ask, member)
static const struct field live_fields[] = {
	{"--on", FIELD_DATE, UNIT_NUMBER, AT(on)},
	{"--rig", FIELD_TEXT, UNIT_NUMBER, AT(rig)},
	{"--loading", FIELD_TEXT, UNIT_NUMBER, AT(loading)},
	{"--span", FIELD_MAYBE, UNIT_LENGTH, AT(span_m)},
	{"--strap", FIELD_MAYBE, UNIT_LENGTH, AT(strap_m)},
	{"--hanger", FIELD_MAYBE, UNIT_MASS, AT(hanger_kg)},
};
#undef AT

/* "10 kg, 5 kg, 2 kg" */
static enum err_code
read_set(
	const struct invocation *in, struct work_bend_ask *ask, struct err *err)
{
	const char *text = invocation_value(in, "--weights");
	char *copy = text != NULL ? arena_text(in->arena, text) : NULL, *next;

	if (text != NULL && copy == NULL)
		return err_memory(err);
	for (char *part = copy; part != NULL; part = next) {
		next = strchr(part, ',');
		if (next != NULL)
			*next++ = '\0';
		if (ask->n_weight == WORK_WEIGHTS_MOST)
			return err_report(err, ERR_INPUT, "--weights",
				"--weights takes up to %d weights, one a key.",
				WORK_WEIGHTS_MOST);
		TRY(unit_read(part, UNIT_MASS, NULL,
			&ask->weight_kg[ask->n_weight], err));
		ask->n_weight++;
	}
	return ERR_NONE;
}

static const struct command_option options[] = {
	{"--rig", "RIG", "on that rig, which says what you do not", false},
	{"--span", "LENGTH", "between the middles of the supports", false},
	{"--hanger", "MASS", "hanger and bucket, part of every load", false},
	{"--weights", "MASSES", "one a key: \"10 kg, 5 kg, 2 kg, 1 kg\"",
		false},
	{"--strap", "LENGTH", "width of the strap in the middle", false},
	{"--loading", "WHERE", "centre or third (centre)", false},
	{"--blind", NULL, "the mix is shown only once the reading is kept",
		false},
	{"--on", "DATE", "when it was tested (now)", false},
	{"--held", "MASS", "not live: the last weight it held", false},
	{"--broke", "MASS", "and the one that broke it; left out: it held",
		false},
	{"--hold", "TIME", "into the hold that broke it", false},
	{"--after-held", "MASS", "held after the first crack", false},
	{"--after-broke", "MASS", "and the one that brought it down", false},
	{"--sag", "LENGTH", "of the middle at the end", false},
	{"--width", "LENGTH", "at the break, not live", false},
	{"--depth", "LENGTH", "at the break: it counts twice", false},
	{"--length", "LENGTH", "of the beam", false},
	{"--mass", "MASS", "of the beam, on that day", false},
	{"--remark", "TEXT", "a remark", false}, {0}};

static enum err_code
bend(const struct invocation *in, const struct desk *desk, struct err *err)
{
	struct work_bend_ask ask = {
		.piece = in->word[1], .typed = fields_typed(in)};
	static const char *const at_once[] = {"--held", "--broke", "--hold",
		"--after-held", "--after-broke", "--sag", "--width", "--depth",
		"--length", "--mass", "--remark"};

	for (size_t i = 0; i < COUNT(at_once); i++)
		if (invocation_has(in, at_once[i]))
			return tell_at_once(in, desk, err);
	if (ask.typed == NULL)
		return err_memory(err);
	TRY(fields_read(in, live_fields, COUNT(live_fields), &ask, err));
	TRY(read_set(in, &ask, err));
	return live(in, desk, &ask, err);
}

static enum err_code
run_bend(const struct invocation *in, struct err *err)
{
	struct desk desk;
	enum err_code code;

	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = bend(in, &desk, err);
	desk_close(&desk);
	return code;
}

const struct command command_bend = {
	.name = "bend",
	.line = "bends a beam weight by weight, each kept as it is hung",
	.help = "  foamwright bend BOOK PIECE --span LENGTH --hanger MASS "
		"--weights MASSES\n  foamwright bend BOOK PIECE --held MASS "
		"--broke MASS [OPTIONS]\n\nLive, a digit adds that weight of "
		"the set; what was acknowledged is in the\nbook, and the same "
		"command goes on after anything that stopped it.\n",
	.example = "foamwright bend site.book K7MD --span \"600 mm\" --hanger "
		   "\"1.2 kg\" --weights \"10 kg, 5 kg, 2 kg, 1 kg\"",
	.least_words = 2,
	.most_words = 2,
	.options = options,
	.run = run_bend,
	.writes = true,
};
