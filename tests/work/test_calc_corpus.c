/* test_calc_corpus.c - what the fuzzer found worth keeping, fed to the ordinary
 * build; see tests/fuzz/README.md. */
#include "support.h"

#include "../fuzz/feed.h"

#include <dirent.h>
#include <stdio.h>

enum { INPUT_MAX = 4096, FOLDER_MAX = 512, PATH_MAX_LENGTH = 1024 };

/* Returns whether the calculation was asked. */
static bool
feed_file(const char *folder, const char *name)
{
	char path[PATH_MAX_LENGTH];
	uint8_t data[INPUT_MAX];
	FILE *file;
	size_t n;

	(void)snprintf(path, sizeof path, "%s/%s", folder, name);
	file = fopen(path, "rb");
	assert_non_null(file);
	n = fread(data, 1, sizeof data, file);
	(void)fclose(file);
	return feed(data, n);
}

static void
calc_corpus__is_answered_or_refused(void **state)
{
	char folder[FOLDER_MAX];
	size_t n_asked = 0;
	DIR *entries;

	(void)state;
	(void)snprintf(
		folder, sizeof folder, "%s", support_path("../fuzz/corpus"));
	entries = opendir(folder);
	assert_non_null(entries);
	for (const struct dirent *entry = readdir(entries); entry != NULL;
		entry = readdir(entries))
		if (entry->d_name[0] != '.')
			n_asked += feed_file(folder, entry->d_name);
	(void)closedir(entries);
	assert_true(n_asked > 100);
}

/* The feeding itself: a name that is none, no line end, nothing at all. */
static void
calc_corpus__feeds_only_known_names(void **state)
{
	static const char known[] = "summary\n{\"values\": [1.3]}";
	static const char unknown[] = "summery\n{\"values\": [1.3]}";

	(void)state;
	assert_true(feed((const uint8_t *)known, strlen(known)));
	assert_false(feed((const uint8_t *)unknown, strlen(unknown)));
	assert_false(feed((const uint8_t *)known, strlen("summary")));
	assert_false(feed(NULL, 0));
}

static const struct CMUnitTest tests[] = {
	TEST(calc_corpus__is_answered_or_refused),
	TEST(calc_corpus__feeds_only_known_names),
};

TEST_MAIN(tests)
