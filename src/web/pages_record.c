/* pages_record.c - the record itself: what is wrong put right, and the language
 * of the pages. */
#include "web/page.h"

#include "work/import.h"
#include "work/shelf.h"
#include "work/withdraw.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* --- Taken back. --- */

static void
fill_withdraw(struct form *form, const struct web_request *request)
{
	static const char *const kinds[] = {
		"material", "mix", "batch", "specimen", "reading", "part"};
	static const char *const shown[] = {N_("a material"), N_("a mix"),
		N_("a batch"), N_("a test piece"), N_("a reading"),
		N_("a part of the building")};

	form_start(form, request, "withdraw", "/record",
		_("Take it back, or bring it back"));
	form->heading = _("Something entered by mistake");
	form_choice(form, "kind", _("What it is"), NULL);
	for (size_t i = 0; i < COUNT(kinds); i++)
		form_choose(form, kinds[i], words(request->language, shown[i]));
	form_text(form, "code", _("Its code"),
		_("Of a reading: the piece, the test and its code, such as "
		  "K7MD drop centre."));
	form_needed(form);
	form_text(form, "because", _("Because"),
		_("It stays in the history with this reason."));
	form_needed(form);
	form_yes(form, "restore", _("Bring back what was taken back"), NULL);
}

static enum err_code
show_record(const struct web_request *request, struct web_reply *reply,
	struct form *form, struct err *err)
{
	struct page page;
	struct err inner = {.code = ERR_NONE};
	size_t n = 0;

	page_start(&page, request, _("The record"), PAGE_RECORD);
	if (web_query(request, "saved") != NULL)
		page_done(&page, _("Recorded."), NULL);
	if (work_verify(&request->desk, request->arena, &n, &inner) == ERR_NONE)
		page_say(&page,
			page_format(&page, "%zu %s", n,
				_("entries, each chained to the one before; "
				  "nothing was altered behind the record's "
				  "back.")));
	else
		page_alarm(&page, arena_text(request->arena, inner.text));
	page_form(&page, form);
	return page_answer(&page, reply, err);
}

enum err_code
web_record(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form form;

	fill_withdraw(&form, request);
	return show_record(request, reply, &form, err);
}

/* The words of a code: a reading has three. */
static bool
split_words(const struct web_request *request, struct work_withdraw *ask)
{
	const char *code = web_given(request, "code");
	char *copy = code != NULL ? arena_text(request->arena, code) : NULL;

	while (copy != NULL && *copy != '\0') {
		size_t n = strcspn(copy, " ");
		bool last = copy[n] == '\0' ||
			ask->n_word + 1 == WITHDRAW_WORDS;

		if (ask->n_word == WITHDRAW_WORDS)
			return false;
		if (n > 0)
			ask->word[ask->n_word++] = copy;
		if (last)
			break;
		copy[n] = '\0';
		copy += n + 1;
	}
	return ask->n_word > 0;
}

enum err_code
web_record_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *kind = web_given(request, "kind");
	const char *because = web_given(request, "because");
	struct work_withdraw ask = {.kind = kind != NULL ? kind : "",
		.because = because,
		.restore = web_given(request, "restore") != NULL};
	struct err inner = {.code = ERR_NONE};
	struct form form;

	fill_withdraw(&form, request);
	if (kind == NULL)
		form_fault_at(&form, "kind", _("This is needed."));
	else if (!split_words(request, &ask))
		form_fault_at(&form, "code", _("This is needed."));
	else if (because == NULL)
		form_fault_at(&form, "because", _("This is needed."));
	else if (work_withdraw(&request->desk, request->arena, &ask, &inner) ==
		ERR_NONE) {
		reply->see_other = "/record?saved=1";
		return ERR_NONE;
	} else {
		form_fault(&form, &inner);
	}
	return show_record(request, reply, &form, err);
}

/* Where a browser is led whose entry was recorded in an earlier run. */
enum err_code
web_recorded(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct page page;

	page_start(&page, request, _("Recorded already"), PAGE_TODAY);
	page_say(&page,
		_("This entry was recorded before; it is in the book once."));
	page_link(&page, _("To Today"), "/today");
	return page_answer(&page, reply, err);
}

/* --- The language of the pages. --- */

enum err_code
web_language(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *language = words_language(request->tail);

	reply->cookie = text_format(request->arena,
		"language=%s; Path=/; Max-Age=31536000; SameSite=Strict; "
		"HttpOnly",
		language);
	reply->see_other = "/today";
	return reply->cookie != NULL ? ERR_NONE : err_memory(err);
}
