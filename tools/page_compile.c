/* page_compile.c - turns a page's HTML file into a C function that writes it.
 *
 *   page_compile NAME.html >page_NAME.c
 *
 * What a file may hold beside HTML:
 *   {{value}}           a text of the view, escaped for the place it stands in
 *   {{"Plain words"}}   words that a catalogue may translate, escaped likewise
 *   {{#rows}} {{/rows}} once for each of view->rows[0 .. view->n_rows)
 *   {{?name}} {{/name}} where view->name is set;  {{^name}}: where it is not
 *   {{>other name}}     write_other of &view->name;  {{>other}}: of the same view
 *   {{.}}               the row itself, where rows are texts
 *   {{../value}}        a value of the view around the row
 *   {{:name}}           at the very start: filled with a struct view_name of
 *                       another page
 *   {{!token}} {{!key}} what the server fills in each time it serves the page
 *   {{!style}}          the style of all pages, alone in a style element
 * A value may stand in text or in a quoted attribute.  In href, src, srcset and action
 * it is an address, or a part of one where something stands before it.  A value
 * anywhere else - a script, a style, a comment, a tag's or an attribute's name,
 * a bare attribute - stops the build, and so do elements left open, attributes
 * that run scripts or hold style, and a mark that is not closed. */
#include <ctype.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NAME_MAX_BYTES = 63, DEPTH_MAX = 48, PATH_MAX_BYTES = 512 };

enum place {
	IN_TEXT,
	IN_TAG,       /* after a tag's name, between attributes */
	IN_NAME,      /* in an attribute's name */
	AFTER_EQUALS, /* nothing may stand here but a quote */
	IN_VALUE,     /* in a quoted attribute */
	IN_COMMENT,
	IN_RAW /* in script or style */
};

struct section {
	char name[NAME_MAX_BYTES + 1];
	char path[PATH_MAX_BYTES]; /* C expression of the view inside */
	bool loops;
	enum place place; /* where it began, and must end */
	size_t n_element;
};

struct compiler {
	const char *file, *text, *at;
	int line;
	enum place place;
	char quote;
	char tag[NAME_MAX_BYTES + 1], attribute[NAME_MAX_BYTES + 1];
	bool value_started, closing, self_closed;
	char element[DEPTH_MAX][NAME_MAX_BYTES + 1];
	size_t n_element;
	struct section section[DEPTH_MAX];
	size_t n_section, n_loop;
	bool in_string; /* a C string of plain HTML is open in the output */
};

__attribute__((noreturn, format(printf, 2, 3))) static void
stop(const struct compiler *c, const char *format, ...)
{
	va_list list;

	(void)fprintf(stderr, "%s:%d: ", c->file, c->line);
	va_start(list, format);
	(void)vfprintf(stderr, format, list);
	va_end(list);
	(void)fputc('\n', stderr);
	exit(EXIT_FAILURE);
}

static bool
is_one_of(const char *word, const char *const *list)
{
	for (; *list != NULL; list++)
		if (strcmp(word, *list) == 0)
			return true;
	return false;
}

static bool
is_void_element(const char *tag)
{
	static const char *const list[] = {"area", "base", "br", "col", "embed",
		"hr", "img", "input", "link", "meta", "source", "track", "wbr",
		"path", "!doctype", NULL};

	return is_one_of(tag, list);
}

static bool
is_raw_element(const char *tag)
{
	static const char *const list[] = {"script", "style", NULL};

	return is_one_of(tag, list);
}

static bool
is_address(const char *attribute)
{
	static const char *const list[] = {
		"href", "src", "srcset", "action", "formaction", NULL};

	return is_one_of(attribute, list);
}

/* --- What is written. --- */

static void
end_string(struct compiler *c)
{
	if (c->in_string)
		(void)fputs("\");\n", stdout);
	c->in_string = false;
}

static void
write_plain(struct compiler *c, char ch)
{
	if (!c->in_string)
		(void)fputs("\thtml_static(html, \"", stdout);
	c->in_string = true;
	switch (ch) {
	case '\n':
		(void)fputs("\\n\"\n\t\t\"", stdout);
		break;
	case '"':
	case '\\':
	case '?': /* no trigraphs */
		(void)putchar('\\');
		(void)putchar(ch);
		break;
	case '\t': /* layout of the file, not of the page */
		break;
	default:
		(void)putchar(ch);
	}
}

static const char *
writer_of_place(const struct compiler *c)
{
	if (c->place == IN_TEXT)
		return "html_text";
	if (c->place != IN_VALUE)
		stop(c,
			"a value may stand in text or in a quoted attribute "
			"only");
	if (!is_address(c->attribute))
		return "html_attribute";
	return c->value_started ? "html_address_part" : "html_address";
}

/* --- The reader of HTML, a character at a time. --- */

static void
take_letter(
	const struct compiler *c, char name[static NAME_MAX_BYTES + 1], char ch)
{
	size_t n = strlen(name);

	if (n == NAME_MAX_BYTES)
		stop(c, "the name %s... is too long", name);
	name[n] = (char)tolower((unsigned char)ch);
	name[n + 1] = '\0';
}

static void
end_tag(struct compiler *c)
{
	c->place = IN_TEXT;
	if (c->closing) {
		if (c->n_element == 0 ||
			strcmp(c->element[c->n_element - 1], c->tag) != 0)
			stop(c, "</%s> closes <%s>", c->tag,
				c->n_element > 0 ? c->element[c->n_element - 1]
						 : "nothing");
		c->n_element--;
		return;
	}
	if (is_void_element(c->tag))
		return;
	if (c->n_element == DEPTH_MAX)
		stop(c, "elements stand too deep in each other");
	memcpy(c->element[c->n_element++], c->tag, sizeof c->tag);
	if (is_raw_element(c->tag))
		c->place = IN_RAW;
}

static void
end_attribute_name(const struct compiler *c)
{
	if (strncmp(c->attribute, "on", 2) == 0 ||
		strcmp(c->attribute, "style") == 0)
		stop(c,
			"the attribute %s is forbidden: no script and no style "
			"stands in a page",
			c->attribute);
}

static void
read_in_text(struct compiler *c, char ch)
{
	if (ch != '<')
		return;
	if (strncmp(c->at, "<!--", 4) == 0) {
		c->place = IN_COMMENT;
		return;
	}
	c->place = IN_TAG;
	c->closing = c->at[1] == '/';
	c->tag[0] = '\0';
	for (const char *p = c->at + 1 + c->closing;
		isalnum((unsigned char)*p) || *p == '!' || *p == '-'; p++)
		take_letter(c, c->tag, *p);
	if (c->tag[0] == '\0')
		stop(c, "< stands before nothing; write &lt;");
}

static void
read_in_tag(struct compiler *c, char ch, bool after_space)
{
	if (ch == '>') {
		end_tag(c);
	} else if (isalpha((unsigned char)ch) && after_space) {
		c->place = IN_NAME;
		c->attribute[0] = '\0';
		take_letter(c, c->attribute, ch);
	}
}

static void
read_in_name(struct compiler *c, char ch)
{
	if (ch == '=') {
		end_attribute_name(c);
		c->place = AFTER_EQUALS;
	} else if (ch == '>') {
		end_attribute_name(c);
		end_tag(c);
	} else if (isspace((unsigned char)ch)) {
		end_attribute_name(c);
		c->place = IN_TAG;
	} else {
		take_letter(c, c->attribute, ch);
	}
}

static void
read_in_raw(struct compiler *c, char ch)
{
	const char *tag = c->element[c->n_element - 1];

	if (ch == '<' && c->at[1] == '/' &&
		strncmp(c->at + 2, tag, strlen(tag)) == 0)
		read_in_text(c, ch);
	else if (!isspace((unsigned char)ch))
		stop(c, "a %s may not hold anything of the page's own", tag);
}

static void
read_plain(struct compiler *c, char ch, char before)
{
	switch (c->place) {
	case IN_TEXT:
		read_in_text(c, ch);
		break;
	case IN_TAG:
		read_in_tag(
			c, ch, isspace((unsigned char)before) || before == '}');
		break;
	case IN_NAME:
		read_in_name(c, ch);
		break;
	case AFTER_EQUALS:
		if (ch != '"' && ch != '\'')
			stop(c, "the attribute %s has no quotes", c->attribute);
		c->quote = ch;
		c->value_started = false;
		c->place = IN_VALUE;
		break;
	case IN_VALUE:
		if (ch == c->quote)
			c->place = IN_TAG;
		else
			c->value_started = true;
		break;
	case IN_COMMENT:
		if (ch == '>' && c->at - c->text >= 2 && c->at[-1] == '-' &&
			c->at[-2] == '-')
			c->place = IN_TEXT;
		break;
	case IN_RAW:
		read_in_raw(c, ch);
		break;
	}
}

/* --- The marks. --- */

/* The C expression of a name, seen from where we are. */
static void
resolve(const struct compiler *c, const char *name, char path[PATH_MAX_BYTES])
{
	size_t up = c->n_section;
	const char *base = "(*view)";

	while (up > 0 && !c->section[up - 1].loops)
		up--;
	for (; strncmp(name, "../", 3) == 0; name += 3) {
		if (up == 0)
			stop(c, "%s: there is no view around this one", name);
		up--;
		while (up > 0 && !c->section[up - 1].loops)
			up--;
	}
	if (up > 0)
		base = c->section[up - 1].path;
	if (strcmp(name, ".") == 0) {
		(void)snprintf(path, PATH_MAX_BYTES, "%s", base);
		return;
	}
	for (const char *p = name; *p != '\0'; p++)
		if (!isalnum((unsigned char)*p) && *p != '_' && *p != '.')
			stop(c, "{{%s}} is no name", name);
	if (snprintf(path, PATH_MAX_BYTES, "%s.%s", base, name) >=
		PATH_MAX_BYTES)
		stop(c, "%s stands too deep", name);
}

static struct section *
open_section(struct compiler *c, const char *name)
{
	struct section *s = &c->section[c->n_section];

	if (c->n_section == DEPTH_MAX)
		stop(c, "sections stand too deep in each other");
	if (c->place != IN_TEXT && c->place != IN_TAG && c->place != IN_VALUE)
		stop(c, "a section may not begin here");
	*s = (struct section){.place = c->place, .n_element = c->n_element};
	(void)snprintf(s->name, sizeof s->name, "%s", name);
	return s;
}

static void
begin_loop(struct compiler *c, const char *name)
{
	struct section *s = open_section(c, name);
	char path[PATH_MAX_BYTES];

	resolve(c, name, path);
	(void)printf("\tfor (size_t i%zu = 0; i%zu < ", c->n_loop, c->n_loop);
	/* the count stands beside the rows: rows and n_rows */
	const char *dot = strrchr(path, '.');

	(void)printf("%.*s.n_%s; i%zu++) {\n", (int)(dot - path), path, dot + 1,
		c->n_loop);
	if (snprintf(s->path, sizeof s->path, "%s[i%zu]", path, c->n_loop) >=
		(int)sizeof s->path)
		stop(c, "%s stands too deep", name);
	s->loops = true;
	c->n_loop++;
	c->n_section++;
}

static void
begin_condition(struct compiler *c, const char *name, bool wanted)
{
	char path[PATH_MAX_BYTES];

	resolve(c, name, path);
	(void)printf("\tif (%s(%s)) {\n", wanted ? "" : "!", path);
	(void)open_section(c, name);
	c->n_section++;
}

static void
end_section(struct compiler *c, const char *name)
{
	const struct section *s;

	if (c->n_section == 0)
		stop(c, "{{/%s}} closes nothing", name);
	s = &c->section[--c->n_section];
	if (strcmp(s->name, name) != 0)
		stop(c, "{{/%s}} closes {{%s}}", name, s->name);
	if (s->place != c->place || s->n_element != c->n_element)
		stop(c,
			"{{/%s}} stands in another place than its beginning: "
			"an element or a quote is open",
			name);
	if (s->loops)
		c->n_loop--;
	(void)fputs("\t}\n", stdout);
}

static void
insert_page(const struct compiler *c, const char *mark)
{
	char page[NAME_MAX_BYTES + 1], name[NAME_MAX_BYTES + 1];
	char path[PATH_MAX_BYTES];
	int n = sscanf(mark, "%63[a-z_] %63s", page, name);

	if (c->place != IN_TEXT)
		stop(c, "a page is inserted between elements only");
	if (n < 1)
		stop(c, "{{>%s}} names no page", mark);
	resolve(c, n == 2 ? name : ".", path);
	(void)printf("\twrite_%s(html, &%s);\n", page, path);
}

static void
write_value(struct compiler *c, const char *name)
{
	char path[PATH_MAX_BYTES];
	const char *writer = writer_of_place(c);

	resolve(c, name, path);
	(void)printf("\t%s(html, %s);\n", writer, path);
	c->value_started = true;
}

static void
write_words(struct compiler *c, const char *quoted)
{
	const char *writer = writer_of_place(c);

	if (strcmp(writer, "html_text") != 0 &&
		strcmp(writer, "html_attribute") != 0)
		stop(c, "words in an address");
	(void)printf(
		"\t%s(html, words(html->language, %s));\n", writer, quoted);
	c->value_started = true;
}

/* What the server fills in each time the page is served. */
static void
write_mark(struct compiler *c, const char *name)
{
	if (strcmp(name, "style") == 0) {
		if (c->place != IN_RAW ||
			strcmp(c->element[c->n_element - 1], "style") != 0)
			stop(c, "{{!style}} stands in a style element only");
		(void)fputs("\thtml_style(html);\n", stdout);
		return;
	}
	if (c->place != IN_VALUE)
		stop(c, "{{!%s}} stands in a quoted attribute only", name);
	if (strcmp(name, "token") == 0)
		(void)fputs("\thtml_mark(html, HTML_MARK_TOKEN);\n", stdout);
	else if (strcmp(name, "key") == 0)
		(void)fputs("\thtml_mark(html, HTML_MARK_KEY);\n", stdout);
	else
		stop(c, "{{!%s}}: the server fills in token or key", name);
	c->value_started = true;
}

static void
take_mark(struct compiler *c, char *mark)
{
	size_t n = strlen(mark);

	end_string(c);
	if (c->place == IN_NAME) { /* an attribute without a value ends here */
		end_attribute_name(c);
		c->place = IN_TAG;
	}
	switch (mark[0]) {
	case '#':
		begin_loop(c, mark + 1);
		break;
	case '?':
		begin_condition(c, mark + 1, true);
		break;
	case '^':
		begin_condition(c, mark + 1, false);
		break;
	case '/':
		end_section(c, mark + 1);
		break;
	case '>':
		insert_page(c, mark + 1);
		break;
	case '"':
		if (n < 3 || mark[n - 1] != '"' ||
			memchr(mark + 1, '"', n - 2) != NULL)
			stop(c, "{{%s}}: words stand in one pair of quotes",
				mark);
		write_words(c, mark);
		break;
	case '!':
		write_mark(c, mark + 1);
		break;
	case '\0':
		stop(c, "{{}} names nothing");
	default:
		write_value(c, mark);
	}
}

static void
compile(struct compiler *c)
{
	char before = '\n';

	while (*c->at != '\0') {
		if (strncmp(c->at, "{{", 2) == 0) {
			char mark[PATH_MAX_BYTES];
			const char *end = strstr(c->at, "}}");

			if (end == NULL)
				stop(c, "{{ is not closed");
			(void)snprintf(mark, sizeof mark, "%.*s",
				(int)(end - c->at - 2), c->at + 2);
			if (strlen(mark) != (size_t)(end - c->at - 2))
				stop(c, "a mark is too long");
			take_mark(c, mark);
			for (; c->at < end + 2; c->at++)
				c->line += *c->at == '\n';
			before = '}';
			continue;
		}
		read_plain(c, *c->at, before);
		write_plain(c, *c->at);
		before = *c->at;
		c->line += *c->at == '\n';
		c->at++;
	}
	end_string(c);
	if (c->n_section > 0)
		stop(c, "{{%s}} is not closed",
			c->section[c->n_section - 1].name);
	if (c->n_element > 0)
		stop(c, "<%s> is not closed", c->element[c->n_element - 1]);
	if (c->place != IN_TEXT)
		stop(c, "the file ends inside a tag or a comment");
}

static char *
read_whole(const char *path)
{
	FILE *from = fopen(path, "rb");
	char *text = NULL;
	long n;

	if (from == NULL)
		return NULL;
	if (fseek(from, 0, SEEK_END) == 0 && (n = ftell(from)) >= 0 &&
		fseek(from, 0, SEEK_SET) == 0) {
		text = calloc((size_t)n + 1, 1);
		if (text != NULL &&
			fread(text, 1, (size_t)n, from) != (size_t)n) {
			free(text);
			text = NULL;
		}
	}
	(void)fclose(from);
	return text;
}

int
main(int argc, char **argv)
{
	static struct compiler c;
	char name[NAME_MAX_BYTES + 1] = "", view[NAME_MAX_BYTES + 1];
	int skipped = 0;
	const char *base;
	char *text;

	if (argc != 2) {
		(void)fputs("page_compile NAME.html >page_NAME.c\n", stderr);
		return EXIT_FAILURE;
	}
	base = strrchr(argv[1], '/');
	base = base != NULL ? base + 1 : argv[1];
	text = read_whole(argv[1]);
	if (text == NULL || sscanf(base, "%63[a-z_]", name) != 1 ||
		strcmp(base + strlen(name), ".html") != 0) {
		(void)fprintf(stderr, "%s: no page could be read\n", argv[1]);
		free(text);
		return EXIT_FAILURE;
	}
	c = (struct compiler){
		.file = base, .text = text, .at = text, .line = 1};
	(void)snprintf(view, sizeof view, "%s", name);
	if (sscanf(text, "{{:%63[a-z_]}}%n", view, &skipped) == 1 &&
		skipped > 0)
		c.at += skipped;
	(void)printf("/* Made by tools/page_compile.c from %s; not edited. */\n"
		     "#include \"web/view.h\"\n\n"
		     "void\nwrite_%s(struct html *html, const struct view_%s "
		     "*view)\n{\n\t(void)view;\n",
		base, name, view);
	compile(&c);
	(void)fputs("}\n", stdout);
	free(text);
	return ferror(stdout) || fflush(stdout) != 0 ? EXIT_FAILURE
						     : EXIT_SUCCESS;
}
