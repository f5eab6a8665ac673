/* pages_photo.c - photos of a batch: small, whole, added, taken out. */
#include "web/pages_photo.h"

#include "web/page.h"
#include "work/photo.h"
#include "work/withdraw.h"

#include <string.h>

enum { SUM_SHOWN = 12 };

/* What it shows, for whoever cannot see it: its code and its remark. */
static const char *
words_of(const struct web_request *request, const struct work_photo *photo)
{
	return text_format(request->arena, "%s %s%s%s", _("Photo"), photo->code,
		photo->remark[0] != '\0' ? ": " : "", photo->remark);
}

/* Its address changes with its bytes, so that a browser may keep them. */
static const char *
picture_at(const struct web_request *request, const struct work_photo *photo)
{
	return text_format(request->arena, "%s?sum=%.*s",
		web_at(request, "/picture/", photo->code), SUM_SHOWN,
		photo->checksum);
}

void
photo_form(
	struct form *form, const struct web_request *request, const char *batch)
{
	form_start(form, request, "photo", web_at(request, "/photos/", batch),
		_("Keep the photo"));
	form->heading = _("Photos of the batch");
	form_photo(form, "taken", _("Take a photo now"),
		_("It needs the signal: a photo does not wait on the phone as "
		  "figures do. Without signal take it with the phone's camera "
		  "and bring it in later."),
		true);
	form_photo(form, "album", _("Or choose photos already taken"),
		_("JPEG, PNG or WebP, at most 12 MB each and 24 MB together. "
		  "Where it was taken is left out."),
		false);
	form_text(form, "remark", _("What it shows"), NULL);
}

enum err_code
photo_blocks(struct page *page, const char *batch, struct err *err)
{
	const struct web_request *request = page->request;
	const struct work_photo *photo;
	size_t n;

	TRY(work_photos(
		&request->desk, request->arena, batch, &photo, &n, err));
	for (size_t i = 0; i < n; i++)
		page_photo(page, web_at(request, "/photo/", photo[i].code),
			picture_at(request, &photo[i]),
			words_of(request, &photo[i]));
	return ERR_NONE;
}

static enum err_code
show_photos(const struct web_request *request, struct web_reply *reply,
	const struct form *form, struct err *err)
{
	struct page page;

	page_start(&page, request,
		text_format(request->arena, "%s %s", _("Photos of batch"),
			request->tail),
		PAGE_MIXER);
	if (web_query(request, "saved") != NULL)
		page_done(&page, _("Recorded."), "/undo/last");
	if (web_query(request, "place") != NULL)
		page_say(&page,
			_("The photo said where it was taken. That was left "
			  "out."));
	TRY(photo_blocks(&page, request->tail, err));
	page_form(&page, form);
	page_link(&page, _("Back to the batch"),
		web_at(request, "/batch/", request->tail));
	return page_answer(&page, reply, err);
}

enum err_code
web_photos(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form form;

	photo_form(&form, request, request->tail);
	return show_photos(request, reply, &form, err);
}

enum err_code
web_photos_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_photo_file *file = arena_take(
		request->arena, request->n_field + 1, sizeof *file);
	struct work_photo_ask ask = {.batch = request->tail,
		.remark = web_given(request, "remark"),
		.file = file,
		.typed = form_as_typed(request)};
	struct work_photo_told told;
	struct err inner = err_in(request->arena);
	struct form form;

	if (file == NULL || ask.typed == NULL)
		return err_memory(err);
	for (size_t i = 0; i < request->n_field; i++)
		if (request->field[i].file != NULL && request->field[i].n > 0)
			file[ask.n_file++] = (struct work_photo_file){
				request->field[i].file, request->field[i].value,
				request->field[i].n};
	photo_form(&form, request, request->tail);
	if (ask.n_file == 0) {
		form_fault_at(&form, "taken", _("Choose a photo."));
		return show_photos(request, reply, &form, err);
	}
	if (work_photo_add(&request->desk, request->arena, &ask, &told,
		    &inner) != ERR_NONE) {
		form_fault_at(&form, "taken", inner.text);
		return show_photos(request, reply, &form, err);
	}
	reply->see_other = text_format(request->arena, "%s?saved=1%s",
		web_at(request, "/photos/", request->tail),
		told.had_place ? "&place=1" : "");
	return reply->see_other != NULL ? ERR_NONE : err_memory(err);
}

/* --- One. --- */

static void
fill_take_out(struct form *form, const struct web_request *request)
{
	form_start(form, request, "take-out",
		web_at(request, "/photo/", request->tail),
		_("Take the photo out"));
	form_text(form, "because", _("Because"),
		_("It stays in the history with this reason."));
	form_needed(form);
}

static enum err_code
show_photo(const struct web_request *request, struct web_reply *reply,
	const struct work_photo *photo, const struct form *form,
	struct err *err)
{
	struct page page;

	page_start(&page, request,
		text_format(request->arena, "%s %s", _("Photo"), photo->code),
		PAGE_MIXER);
	page_photo(&page, picture_at(request, photo),
		picture_at(request, photo), words_of(request, photo));
	if (photo->remark[0] != '\0')
		page_say(&page, photo->remark);
	page_big(&page, _("added"), page_moment(&page, photo->added_on));
	page_big(&page, _("pixels"),
		page_format(&page, "%lld x %lld", (long long)photo->width,
			(long long)photo->height));
	page_form(&page, form);
	page_link(&page, _("Back to the batch"),
		web_at(request, "/batch/", photo->batch));
	return page_answer(&page, reply, err);
}

enum err_code
web_photo(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_photo photo;
	struct form form;

	TRY(work_photo_one(
		&request->desk, request->arena, request->tail, &photo, err));
	fill_take_out(&form, request);
	return show_photo(request, reply, &photo, &form, err);
}

enum err_code
web_photo_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_withdraw ask = {.kind = "photo",
		.word = {request->tail},
		.n_word = 1,
		.because = web_given(request, "because")};
	struct err inner = err_in(request->arena);
	struct work_photo photo;
	struct form form;

	TRY(work_photo_one(
		&request->desk, request->arena, request->tail, &photo, err));
	fill_take_out(&form, request);
	if (ask.because == NULL) {
		form_fault_at(&form, "because", _("This is needed."));
		return show_photo(request, reply, &photo, &form, err);
	}
	if (work_withdraw(&request->desk, request->arena, &ask, &inner) !=
		ERR_NONE) {
		form_fault(&form, &inner);
		return show_photo(request, reply, &photo, &form, err);
	}
	reply->see_other = text_format(request->arena, "%s?saved=1",
		web_at(request, "/photos/", photo.batch));
	return reply->see_other != NULL ? ERR_NONE : err_memory(err);
}

/* Whole, as it was kept. */
enum err_code
web_picture(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_photo photo;
	const char *bytes;

	TRY(work_photo_one(
		&request->desk, request->arena, request->tail, &photo, err));
	TRY(work_photo_bytes(
		&request->desk, request->arena, &photo, &bytes, err));
	reply->type = photo.media;
	reply->no_store = true;
	text_add_n(&reply->body, bytes, (size_t)photo.bytes);
	return ERR_NONE;
}
