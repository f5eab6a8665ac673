/* form.h - the fields of a page: shown, read, and shown again with what is
 * wrong beside each. */
#ifndef WEB_FORM_H
#define WEB_FORM_H

#include "web/request.h"
#include "work/fields.h"

enum { FORM_FIELDS_MOST = 96, FORM_CHOICES_MOST = 64 };

enum form_kind {
	FORM_TEXT,
	FORM_NUMBER, /* with a choice of units beside it, or without */
	FORM_LONG,   /* several lines */
	FORM_DATE,   /* a day, or with `moment` a day and an hour */
	FORM_CHOICE, /* one of a few: buttons; of many: a list */
	FORM_YES,    /* a box to tick */
	FORM_FILE,
	FORM_HIDDEN
};

struct form_choice {
	const char *value, *label;
};

struct form_field {
	enum form_kind kind;
	const char *name, *label;
	const char *hint; /* NULL: none; holds an example */
	const char
		*value; /* as typed, or what stands there first; NULL: empty */
	const char *error; /* NULL: none */
	struct form_choice
		choice[FORM_CHOICES_MOST]; /* of a choice, or units */
	size_t n_choice;
	const char *chosen_unit;
	bool many;         /* a file field that takes several */
	bool photo;        /* a file field for pictures */
	bool camera;       /* one that opens the phone's camera */
	bool timed;        /* a number with a stopwatch, where scripts run */
	bool listed;       /* a choice shown as a list, however few; one of the
			choices is "" */
	const char *group; /* words of the fold that begins here; "": its end */
	bool needed;       /* marked so; the deed decides */
};

/* Several buttons of one form: which was pressed is a field of it. */
struct form_button {
	const char *name, *value, *label;
};

enum { FORM_BUTTONS_MOST = 16 };

struct form {
	const struct web_request *request; /* borrowed */
	const char *action, *button;
	const char *heading; /* NULL: none */
	const char *id;      /* within its page, "bend" */
	const char *error;   /* of the form as a whole; NULL: none */
	struct form_field *field[FORM_FIELDS_MOST];
	size_t n_field;
	struct form_button pressed[FORM_BUTTONS_MOST]; /* before the last */
	size_t n_pressed;
	bool folded; /* under its heading, which opens it; open with a fault */
	const char *group;        /* of the next field added */
	bool takes_files, failed; /* failed: memory or too many fields */
	bool gets;    /* asks a page again (GET) and records nothing */
	bool carries; /* a file comes along: the browser sends it itself, no
			 script keeps a draft or an outbox of it */
	const char
		*live; /* a page that works out what is typed, asked for while
			   * one types where scripts run; NULL: none */
};

/* form_start(form, request, id, action, button): no fields yet.  When the
 * request is a deed sent to this form's action, each field added takes what was
 * typed as its value; else what form_value gives. */
void form_start(struct form *form, const struct web_request *request,
	const char *id, const char *action, const char *button);

/* Each adds a field; label and hint in the reader's language, hint may be
 * NULL. */
void form_text(struct form *form, const char *name, const char *label,
	const char *hint);
void form_long(struct form *form, const char *name, const char *label,
	const char *hint);
void form_date(struct form *form, const char *name, const char *label,
	const char *hint);
void form_yes(struct form *form, const char *name, const char *label,
	const char *hint);
void form_file(struct form *form, const char *name, const char *label,
	const char *hint, bool many);
void form_hidden(struct form *form, const char *name, const char *value);

/* form_photo: a file field for pictures; camera: the phone's camera opens, one
 * picture; else its album, several. */
void form_photo(struct form *form, const char *name, const char *label,
	const char *hint, bool camera);

/* form_number: units as "kg lb", the first chosen unless another was; "" for a
 * plain number or a share.  A unit typed with the number wins. */
void form_number(struct form *form, const char *name, const char *label,
	const char *units, const char *hint);

/* form_choice, then form_choose for each of its choices. */
void form_choice(struct form *form, const char *name, const char *label,
	const char *hint);
void form_choose(struct form *form, const char *value, const char *label);

/* form_listed: the choice added last as a list, in which the first stands for
 * nothing chosen: form_choose it with "". */
void form_listed(struct form *form);

/* form_press: one more button, above the form's own; button NULL in form_start:
 * these alone. */
void form_press(struct form *form, const char *name, const char *value,
	const char *label);

/* Of the field added last: what stands there where nothing was typed; that it
 * must be filled in. */
void form_value(struct form *form, const char *value);
void form_needed(struct form *form);

/* form_group(form, words): the fields added next stand folded under these words,
 * open where something was typed or is wrong; NULL: in the open again. */
void form_group(struct form *form, const char *group);

/* form_timed: of the number added last, in seconds first: a stopwatch fills it. */
void form_timed(struct form *form);

/* form_read(request, field, n, to, form): every field of the table that was given
 * is read into `to`, a gallon as the book means it; all that are wrong are reported at once beside
 * theirs in form.  Returns false if one was. */
bool form_read(const struct web_request *request, const struct field *field,
	size_t n, void *to, struct form *form);

/* form_typed_number(request, arena, name): the number with the unit chosen
 * beside it ("70" and "lb" to "70 lb"); NULL if not given. */
const char *form_typed_number(
	const struct web_request *request, const char *name);

/* form_fault(form, err): what a deed refused, beside the field that err names,
 * else above the form. */
void form_fault(struct form *form, const struct err *err);

/* form_fault_at(form, name, sentence): beside the field of that name. */
void form_fault_at(struct form *form, const char *name, const char *sentence);

/* form_has(form, name): whether a field of that name was added. */
bool form_has(const struct form *form, const char *name);

/* form_has_fault(form): something is wrong. */
bool form_has_fault(const struct form *form);

/* form_as_typed(request): all fields as they were typed, one JSON object, for
 * the record; NULL if memory ran out. */
const char *form_as_typed(const struct web_request *request);

#endif /* WEB_FORM_H */
