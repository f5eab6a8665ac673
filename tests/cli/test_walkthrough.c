/* test_walkthrough.c - every "console" block of docs/ runs word for word.
 *
 * A line that begins with "$ " is a command; the lines under it, up to the next
 * command or the end of the block, are what it must print (standard error
 * mixed in), with a last line "[exit N]" where the status is not 0.  The blocks
 * of one page run in order in one empty folder that holds a link `demo` to the
 * demo data.  A line of three dots stands for any lines. */
#include "support.h"

#include <dirent.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

enum { PAGE_MOST = 1 << 20, OUTPUT_MOST = 1 << 20, COMMAND_MOST = 4096 };

struct page {
	const char *name;
	char *text;
	char folder[64];
	size_t n_command;
};

static char *
read_page(const char *path)
{
	FILE *file = fopen(path, "rb");
	char *text = calloc(PAGE_MOST, 1);
	size_t n;

	assert_non_null(file);
	assert_non_null(text);
	n = fread(text, 1, PAGE_MOST - 1, file);
	assert_true(n < PAGE_MOST - 1);
	(void)fclose(file);
	return text;
}

/* What the shell prints for the command, in the page's folder. */
static void
run_shell(const struct page *page, const char *command, char *output)
{
	char line[COMMAND_MOST + 512];
	FILE *from;
	size_t n;
	int status;

	assert_true((size_t)snprintf(line, sizeof line,
			    "cd '%s' && PATH=\"$PWD/bin:$PATH\" && export "
			    "PATH && { %s\n} 2>&1",
			    page->folder, command) < sizeof line);
	from = popen(line, "r");
	assert_non_null(from);
	n = fread(output, 1, OUTPUT_MOST - 64, from);
	status = pclose(from);
	if (n > 0 && output[n - 1] != '\n')
		output[n++] = '\n';
	output[n] = '\0';
	if (WIFEXITED(status) && WEXITSTATUS(status) != 0)
		(void)snprintf(
			output + n, 64, "[exit %d]\n", WEXITSTATUS(status));
	else if (!WIFEXITED(status))
		(void)snprintf(output + n, 64, "[stopped by a signal]\n");
}

static size_t
line_length(const char *text)
{
	size_t n = strcspn(text, "\n");

	return text[n] == '\n' ? n + 1 : n;
}

/* Does got read as want does, where a line "..." stands for any lines? */
static bool
same_text(const char *want, const char *got)
{
	while (*want != '\0') {
		size_t n = line_length(want);

		if (strncmp(want, "...\n", 4) == 0) {
			for (want += n; *got != '\0'; got += line_length(got))
				if (same_text(want, got))
					return true;
			return *want == '\0';
		}
		if (strncmp(want, got, n) != 0)
			return false;
		want += n;
		got += n;
	}
	return *got == '\0';
}

/* The first command of the block at *at: the command goes into command, what is
 * to follow into want; *at moves on.  False at the end of the block. */
static bool
next_command(const char **at, char *command, char *want)
{
	size_t n_command = 0, n_want = 0, n;

	if (strncmp(*at, "$ ", 2) != 0)
		return false;
	*at += 2;
	do {
		n = line_length(*at);
		assert_true(n_command + n < COMMAND_MOST);
		memcpy(command + n_command, *at, n);
		n_command += n;
		*at += n;
	} while (n_command >= 2 && command[n_command - 2] == '\\');
	command[n_command - 1] = '\0';
	while (strncmp(*at, "$ ", 2) != 0 && strncmp(*at, "```", 3) != 0) {
		n = line_length(*at);
		assert_true(n > 0 && n_want + n < OUTPUT_MOST);
		memcpy(want + n_want, *at, n);
		n_want += n;
		*at += n;
	}
	want[n_want] = '\0';
	return true;
}

static void
run_block(struct page *page, const char **at)
{
	static char command[COMMAND_MOST], want[OUTPUT_MOST], got[OUTPUT_MOST];

	while (next_command(at, command, want)) {
		run_shell(page, command, got);
		page->n_command++;
		if (!same_text(want, got))
			fail_msg("docs/%s: $ %s\n--- the page says\n%s--- the "
				 "program says\n%s",
				page->name, command, want, got);
	}
}

static void
prepare_folder(struct page *page)
{
	char line[2048];

	(void)snprintf(page->folder, sizeof page->folder, "walk-XXXXXX");
	assert_non_null(mkdtemp(page->folder));
	assert_true((size_t)snprintf(line, sizeof line,
			    "mkdir '%s/bin' && ln -s '%s' '%s/bin/foamwright' "
			    "&& ln -s '%s/demo' '%s/demo'",
			    page->folder, getenv("FOAMWRIGHT"), page->folder,
			    getenv("FOAMWRIGHT_SOURCE"),
			    page->folder) < sizeof line);
	assert_int_equal(system(line), 0);
}

static void
run_page(const char *folder, const char *name, size_t *n_command)
{
	static const char fence[] = "```console\n";
	struct page page = {.name = name};
	char line[2048];
	const char *at;

	(void)snprintf(line, sizeof line, "%s/%s", folder, name);
	page.text = read_page(line);
	prepare_folder(&page);
	for (at = strstr(page.text, fence); at != NULL;
		at = strstr(at, fence)) {
		at += sizeof fence - 1;
		run_block(&page, &at);
	}
	(void)snprintf(line, sizeof line, "rm -rf '%s'", page.folder);
	assert_int_equal(system(line), 0);
	free(page.text);
	*n_command += page.n_command;
}

static void
walkthrough__every_page_is_true(void **state)
{
	char folder[1024];
	size_t n_command = 0;
	DIR *docs;

	(void)state;
	(void)snprintf(
		folder, sizeof folder, "%s/docs", getenv("FOAMWRIGHT_SOURCE"));
	docs = opendir(folder);
	assert_non_null(docs);
	for (struct dirent *entry = readdir(docs); entry != NULL;
		entry = readdir(docs)) {
		const char *dot = strrchr(entry->d_name, '.');

		if (dot != NULL && strcmp(dot, ".md") == 0)
			run_page(folder, entry->d_name, &n_command);
	}
	(void)closedir(docs);
	assert_true(n_command > 0);
}

static void
walkthrough__dots_stand_for_lines(void **state)
{
	(void)state;
	assert_true(same_text("a\n...\nd\n", "a\nb\nc\nd\n"));
	assert_true(same_text("a\n...\n", "a\nb\n"));
	assert_false(same_text("a\n...\nd\n", "a\nb\nc\n"));
	assert_false(same_text("a\n", "a\nb\n"));
	assert_false(same_text("a\nb\n", "a\n"));
}

static const struct CMUnitTest walkthrough[] = {
	TEST(walkthrough__every_page_is_true),
	TEST(walkthrough__dots_stand_for_lines),
};

TEST_MAIN(walkthrough)
