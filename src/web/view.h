/* view.h - what each file of src/web/page is filled with: ready texts, nothing
 * to decide.  n_rows stands beside rows, for {{#rows}}. */
#ifndef WEB_VIEW_H
#define WEB_VIEW_H

#include "web/html.h"
#include "web/words.h"

#include <stdbool.h>
#include <stddef.h>

struct view_link {
	const char *words, *address;
	bool here; /* the page that is shown */
};

struct view_head {
	const char *text, *unit;
	bool number;
};

struct view_cell {
	const char *text, *address, *picture;
	const char *heading;        /* its column's, where the row is stacked */
	bool head, number, missing; /* head: the row's own name */
	bool empty;                 /* left out where the row is stacked */
	bool brief;                 /* a word or a date: kept in one line */
	bool lengthy;               /* a sentence: given room */
};

struct view_row {
	const struct view_cell *cells;
	size_t n_cells;
};

struct view_grid {
	const char *caption, *csv;
	bool folded;
	bool stacks; /* on a phone: each row a list of its cells */
	const struct view_head *heads;
	size_t n_heads;
	const struct view_row *rows;
	size_t n_rows;
};

struct view_item {
	const char *id, *figure, *name, *note, *picture, *alt;
};

struct view_ticks {
	const char *caption;
	const struct view_item *items;
	size_t n_items;
};

struct view_labels {
	const struct view_item *items;
	size_t n_items;
};

struct view_choice {
	const char *value, *label, *id;
	bool chosen;
};

struct view_field {
	const char *name, *id, *label, *hint, *hint_id, *error, *error_id;
	const char *link, *described, *value, *unit_name;
	bool text, number, lines, few, many, yes, file, hidden, several;
	bool photo, camera;
	bool needed, ticked, timed, listed;
	const struct view_choice *choices;
	size_t n_choices;
};

struct view_button {
	const char *name, *value, *label;
};

/* Fields that stand together; folded: under its words, which open it. */
struct view_group {
	const char *folded;
	bool open;
	const struct view_field *fields;
	size_t n_fields;
};

struct view_form {
	const char *live;
	const char *id, *action, *button, *heading, *error, *kind;
	bool files, gets, faults, folded;
	const struct view_field *fields;
	size_t n_fields;
	const struct view_group *groups; /* the same fields */
	size_t n_groups;
	const struct view_button *buttons;
	size_t n_buttons;
};

struct view_block {
	const char *heading, *say, *caution, *alarm, *done, *undo;
	const char *label, *figure, *words, *address, *picture, *narrow;
	const char *photo, *whole;
	bool has_grid, has_form, has_ticks, has_labels;
	struct view_grid grid;
	struct view_ticks ticks;
	struct view_labels labels;
	struct view_form form;
};

struct view_layout {
	const char *language, *title, *tab, *book, *script, *json, *csv;
	const char *body, *refresh, *here;
	const char *units, *units_address; /* to other units; NULL: not here */
	bool field, has_faults, has_table;
	const struct view_link *sections;
	size_t n_sections;
	const struct view_link *languages;
	size_t n_languages;
	const struct view_link *doors; /* over the network */
	size_t n_doors;
	const struct view_block *blocks;
	size_t n_blocks;
};

#define VIEW_PAGE(name) \
	void write_##name(struct html *html, const struct view_##name *view)
VIEW_PAGE(layout);
VIEW_PAGE(block);
VIEW_PAGE(grid);
VIEW_PAGE(form);
VIEW_PAGE(ticks);
VIEW_PAGE(labels);
VIEW_PAGE(field);
void write_ask(struct html *html, const struct view_form *view);
void write_table(struct html *html, const struct view_grid *view);
void write_entry(struct html *html, const struct view_field *view);
void write_choices(struct html *html, const struct view_field *view);
void write_tick(struct html *html, const struct view_field *view);
#undef VIEW_PAGE

#endif /* WEB_VIEW_H */
