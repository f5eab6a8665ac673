/* test_session.c - codes, sessions and pairing tokens by a clock of the test's
 * own.  The limits are our own. */
#include "support.h"

#include "web/session.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

enum { MINUTE_MS = 60000, HOUR_MS = 60 * MINUTE_MS };

struct signing {
	struct sessions *sessions;
	char record[SESSION_CODE + 1], read[SESSION_CODE + 1];
	char id[SESSION_HEX + 1];
	bool closed;
};

static void
begin(struct fixture *f, struct signing *s)
{
	memset(s, 0, sizeof *s);
	assert_ok(sessions_new(s->record, s->read, &s->sessions, &f->err),
		&f->err);
}

static enum session_role
try(struct signing *s, const char *code, int64_t now_ms)
{
	return sessions_sign_in(s->sessions, code, now_ms, s->id, &s->closed);
}

static void
session__each_code_gives_its_role(void **state)
{
	struct signing s;
	char first[SESSION_HEX + 1], typed[SESSION_CODE + 2];

	begin(*state, &s);
	assert_int_equal(SESSION_RECORD, try(&s, s.record, 5));
	(void)snprintf(first, sizeof first, "%s", s.id);
	assert_int_equal(SESSION_HEX, strlen(first));
	/* as people type it: small letters, a space in the middle */
	memcpy(typed, s.read, 5);
	typed[5] = ' ';
	memcpy(typed + 6, s.read + 5, sizeof s.read - 5);
	for (char *at = typed; *at != '\0'; at++)
		*at = (char)tolower((unsigned char)*at);
	assert_int_equal(SESSION_READ, try(&s, typed, 6));
	assert_string_not_equal(first, s.id);
	assert_int_equal(SESSION_RECORD, sessions_role(s.sessions, first, 7));
	assert_int_equal(SESSION_READ, sessions_role(s.sessions, s.id, 7));
	sessions_sign_out(s.sessions, first);
	assert_int_equal(SESSION_NONE, sessions_role(s.sessions, first, 8));
	assert_int_equal(SESSION_NONE, sessions_role(s.sessions, "", 8));
	assert_int_equal(SESSION_NONE, sessions_role(s.sessions, NULL, 8));
	sessions_free(s.sessions);
}

static void
session__a_code_with_more_behind_it_is_none(void **state)
{
	struct signing s;
	char typed[4096];

	begin(*state, &s);
	(void)snprintf(typed, sizeof typed, "%sX", s.record);
	assert_int_equal(SESSION_NONE, try(&s, typed, 5));
	memset(typed, 'A', sizeof typed - 1);
	typed[sizeof typed - 1] = '\0';
	memcpy(typed, s.record, SESSION_CODE);
	assert_int_equal(SESSION_NONE, try(&s, typed, 5));
	assert_int_equal(SESSION_NONE, try(&s, "", 5));
	/* what people put between is no letter */
	(void)snprintf(
		typed, sizeof typed, " %.5s-%s \n", s.record, s.record + 5);
	assert_int_equal(SESSION_RECORD, try(&s, typed, 5));
	sessions_free(s.sessions);
}

static void
session__five_wrong_codes_close_the_door_for_a_minute(void **state)
{
	struct signing s;

	begin(*state, &s);
	for (int i = 0; i < 5; i++) {
		assert_int_equal(SESSION_NONE, try(&s, "WRONG", 1000 * i));
		assert_false(s.closed);
	}
	assert_int_equal(SESSION_NONE, try(&s, s.record, 5000));
	assert_true(s.closed);
	assert_int_equal(SESSION_NONE, try(&s, s.record, MINUTE_MS - 1));
	assert_true(s.closed);
	/* the first of the five is a minute old */
	assert_int_equal(SESSION_RECORD, try(&s, s.record, MINUTE_MS));
	assert_false(s.closed);
	sessions_free(s.sessions);
}

static void
session__it_ends_after_twelve_idle_hours(void **state)
{
	const int64_t idle = 12 * (int64_t)HOUR_MS;
	struct signing s;

	begin(*state, &s);
	assert_int_equal(SESSION_READ, try(&s, s.read, 0));
	assert_int_equal(SESSION_READ, sessions_role(s.sessions, s.id, idle));
	assert_int_equal(
		SESSION_READ, sessions_role(s.sessions, s.id, 2 * idle));
	assert_int_equal(
		SESSION_NONE, sessions_role(s.sessions, s.id, 3 * idle + 1));
	assert_int_equal(
		SESSION_NONE, sessions_role(s.sessions, s.id, 2 * idle));
	sessions_free(s.sessions);
}

static void
session__a_token_is_good_once_and_for_ten_minutes(void **state)
{
	struct signing s;
	char token[SESSION_HEX + 1], newer[SESSION_HEX + 1];

	begin(*state, &s);
	assert_false(sessions_pair(s.sessions, "", 0, s.id));
	sessions_pair_token(s.sessions, 0, token);
	sessions_pair_token(s.sessions, 0, newer);
	assert_false(sessions_pair(s.sessions, token, 1, s.id));
	assert_true(sessions_pair(s.sessions, newer, 10 * MINUTE_MS, s.id));
	assert_int_equal(SESSION_RECORD,
		sessions_role(s.sessions, s.id, 10 * MINUTE_MS));
	assert_false(sessions_pair(s.sessions, newer, 2, s.id));
	sessions_pair_token(s.sessions, 0, token);
	assert_false(
		sessions_pair(s.sessions, token, 10 * MINUTE_MS + 1, s.id));
	sessions_free(s.sessions);
}

/* More than there are places for: the one not used longest goes. */
static void
session__the_oldest_makes_room(void **state)
{
	struct signing s;
	char token[SESSION_HEX + 1], first[SESSION_HEX + 1];
	char second[SESSION_HEX + 1];

	begin(*state, &s);
	for (int i = 0; i <= SESSIONS_MOST; i++) {
		sessions_pair_token(s.sessions, i, token);
		assert_true(sessions_pair(s.sessions, token, i, s.id));
		if (i == 0)
			memcpy(first, s.id, sizeof first);
		if (i == 1)
			memcpy(second, s.id, sizeof second);
		if (i == 2) /* the first is in use */
			assert_int_equal(SESSION_RECORD,
				sessions_role(s.sessions, first, i));
	}
	assert_int_equal(SESSION_RECORD, sessions_role(s.sessions, first, 99));
	assert_int_equal(SESSION_NONE, sessions_role(s.sessions, second, 99));
	assert_int_equal(SESSION_RECORD, sessions_role(s.sessions, s.id, 99));
	sessions_free(s.sessions);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(session__each_code_gives_its_role),
		TEST(session__a_code_with_more_behind_it_is_none),
		TEST(session__five_wrong_codes_close_the_door_for_a_minute),
		TEST(session__it_ends_after_twelve_idle_hours),
		TEST(session__a_token_is_good_once_and_for_ten_minutes),
		TEST(session__the_oldest_makes_room),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
