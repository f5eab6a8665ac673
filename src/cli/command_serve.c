/* command_serve.c - the pages of a book. */
#include "cli/fields.h"

#include "web/server.h"

#include <stdio.h>
#include <stdlib.h>

enum { PORT_USUAL = 8080, PORT_MOST = 65535, STATUS_BAD = 400 };

static const struct command_option serve_options[] = {
	{"--port", "N", "where, 8080 unless said; 0 takes a free one", false},
	{"--lan", NULL, "for phones on the local network too, with a sign-in",
		false},
	{"--tls", NULL, "encrypted, with a certificate kept beside the book",
		false},
	{"--get", "ADDRESS", "prints what that page answers, and ends", false},
	{0}};

static void
tell(void *whom, const char *line)
{
	(void)whom;
	(void)puts(line);
	(void)fflush(stdout);
}

static enum err_code
read_port(const struct invocation *in, unsigned *port, struct err *err)
{
	const char *text = invocation_value(in, "--port");
	char *end = NULL;
	unsigned long got;

	*port = PORT_USUAL;
	if (text == NULL)
		return ERR_NONE;
	got = strtoul(text, &end, 10);
	if (text[0] < '0' || text[0] > '9' || *end != '\0' || got > PORT_MOST)
		return err_report(err, ERR_INPUT, "--port",
			"--port takes a whole number from 0 to 65535; it was "
			"given \"%.20s\".",
			text);
	*port = (unsigned)got;
	return ERR_NONE;
}

static enum err_code
print_page(const struct invocation *in, const struct web_server_ask *ask,
	const char *address, struct err *err)
{
	struct text page;
	int status = 0;

	text_init(&page, in->arena);
	TRY(web_get(ask, in->arena, address, &page, &status, err));
	(void)fwrite(page.bytes, 1, page.n, stdout);
	if (status >= STATUS_BAD)
		return err_report(err, ERR_ANSWER_NO, "--get",
			"The page answers with status %d.", status);
	return ERR_NONE;
}

static enum err_code
run_serve(const struct invocation *in, struct err *err)
{
	const char *get = invocation_value(in, "--get");
	const char *who = getenv("USER");
	struct web_server_ask ask = {.book = in->word[0],
		.who = who != NULL && who[0] != '\0' ? who : "someone",
		.lan = invocation_has(in, "--lan"),
		.tls = invocation_has(in, "--tls"),
		.tell = tell};

	TRY(read_port(in, &ask.port, err));
	return get != NULL ? print_page(in, &ask, get, err)
			   : web_serve(&ask, err);
}

const struct command command_serve = {
	.name = "serve",
	.line = "opens the book as pages for a browser on this machine",
	.help = "  foamwright serve BOOK [OPTIONS]\n\nThe first line printed "
		"is the address. Only this machine can reach it,\nunless "
		"--lan is given: then phones sign in with a code or a "
		"picture.\nCtrl-C ends it; an entry that is being written is "
		"finished first.\n",
	.example = "foamwright serve site.book --port 0",
	.least_words = 1,
	.most_words = 1,
	.options = serve_options,
	.run = run_serve,
};
