/* door.c - sign-in by code, pairing by QR picture. */
#include "web/door.h"

#include "web/crew.h"
#include "web/dispatch.h"
#include "web/page.h"
#include "web/qr.h"

#include <stdio.h>
#include <string.h>

static const char route_sign_in[] = "/sign-in", route_sign_out[] = "/sign-out",
		  route_pair[] = "/pair", route_picture[] = "/pair/picture",
		  route_token[] = "/pair/", route_trust[] = "/certificate",
		  route_authority[] = "/certificate.crt";

void
door_enter(struct door *door, struct exchange *exchange, const char *cookie,
	bool is_near)
{
	enum session_role role = SESSION_RECORD;

	exchange->session[0] = '\0';
	if (door->sessions != NULL && !is_near) {
		role = cookie != NULL
			? sessions_role(door->sessions, cookie, crew_now_ms())
			: SESSION_NONE;
		if (role != SESSION_NONE)
			(void)snprintf(exchange->session,
				sizeof exchange->session, "%s", cookie);
	}
	exchange->request.may_record = role == SESSION_RECORD;
	exchange->is_outside = role == SESSION_NONE;
}

static bool
is_token_page(const char *path)
{
	return strncmp(path, route_token, strlen(route_token)) == 0 &&
		strcmp(path, route_picture) != 0;
}

bool
door_is_own(const struct exchange *exchange)
{
	const char *path = exchange->request.path;

	return strcmp(path, route_sign_in) == 0 ||
		strcmp(path, route_sign_out) == 0 || is_token_page(path);
}

bool
door_looks_at_code(const struct door *door, const struct exchange *exchange)
{
	return door->sessions != NULL && exchange->request.method == WEB_POST &&
		strcmp(exchange->request.path, route_sign_in) == 0;
}

static const char *
cookie_of(const struct door *door, const struct exchange *exchange,
	const char *id)
{
	return text_format(exchange->arena,
		"session=%s; Path=/; HttpOnly; SameSite=Strict%s%s", id,
		door->tls ? "; Secure" : "",
		id[0] == '\0' ? "; Max-Age=0" : "");
}

static void
show(struct page *page, struct web_reply *reply)
{
	struct err err = err_in(page->request->arena);

	reply->no_store = true;
	if (page_answer(page, reply, &err) != ERR_NONE)
		web_say(page->request, reply, MHD_HTTP_INTERNAL_SERVER_ERROR,
			&err);
}

static void
show_sign_in(
	struct exchange *exchange, struct web_reply *reply, const char *fault)
{
	const struct web_request *request = &exchange->request;
	struct page page;
	struct form form;

	page_start(&page, request, _("Sign in"), PAGE_NOWHERE);
	page.field = true;
	form_start(&form, request, "sign-in", route_sign_in, _("Sign in"));
	form_text(&form, "code", _("The code"),
		_("It stands on the laptop's screen where the program was "
		  "started: one code records, the other only reads."));
	if (fault != NULL)
		form_fault_at(&form, "code", fault);
	page_form(&page, &form);
	show(&page, reply);
}

static void
sign_in(struct door *door, struct exchange *exchange, struct web_reply *reply)
{
	const struct web_request *request = &exchange->request;
	const char *code = web_given(request, "code");
	char id[SESSION_HEX + 1];
	bool closed = false;

	if (code == NULL) {
		show_sign_in(exchange, reply, _("This is needed."));
		return;
	}
	if (sessions_sign_in(door->sessions, code, crew_now_ms(), id,
		    &closed) == SESSION_NONE) {
		show_sign_in(exchange, reply,
			closed ? _("Too many wrong codes. Wait a minute.")
			       : _("This is not one of the codes."));
		return;
	}
	reply->cookie = cookie_of(door, exchange, id);
	reply->see_other = "/today";
}

/* By a button: an address alone, opened from anywhere, signs nobody out. */
static void
show_sign_out(struct exchange *exchange, struct web_reply *reply)
{
	const struct web_request *request = &exchange->request;
	struct page page;
	struct form form;

	page_start(&page, request, _("Sign out"), PAGE_NOWHERE);
	page.field = true;
	if (exchange->session[0] == '\0') {
		page_say(&page, _("This device is not signed in."));
		page_link(&page, _("To Today"), "/today");
		show(&page, reply);
		return;
	}
	page_say(&page,
		_("This device leaves the book. Pages kept on it go; entries "
		  "that still wait to be sent stay until somebody signs in on "
		  "it again."));
	form_start(&form, request, "sign-out", route_sign_out, _("Sign out"));
	page_form(&page, &form);
	page_link(&page, _("To Today"), "/today");
	show(&page, reply);
}

static void
sign_out(struct door *door, struct exchange *exchange, struct web_reply *reply)
{
	if (exchange->session[0] != '\0')
		sessions_sign_out(door->sessions, exchange->session);
	reply->cookie = cookie_of(door, exchange, "");
	reply->see_other = route_sign_in;
}

/* Opened by the phone that read the picture: one button, so that a preview of
 * the address uses nothing up. */
static void
show_token(
	struct exchange *exchange, struct web_reply *reply, const char *fault)
{
	const struct web_request *request = &exchange->request;
	struct page page;
	struct form form;

	page_start(
		&page, request, _("This phone joins the book"), PAGE_NOWHERE);
	page.field = true;
	if (fault != NULL) {
		page_alarm(&page, fault);
		page_link(&page, _("Sign in with the code"), route_sign_in);
	} else {
		form_start(&form, request, "pair", request->path,
			_("Join and record"));
		page_form(&page, &form);
	}
	show(&page, reply);
}

static void
pair(struct door *door, struct exchange *exchange, struct web_reply *reply)
{
	const struct web_request *request = &exchange->request;
	char id[SESSION_HEX + 1];

	if (!sessions_pair(door->sessions, request->path + strlen(route_token),
		    crew_now_ms(), id)) {
		show_token(exchange, reply,
			_("This picture was used already, or is older than ten "
			  "minutes. Let the laptop show a fresh one."));
		return;
	}
	reply->cookie = cookie_of(door, exchange, id);
	reply->see_other = "/today";
}

static void
show_pairing(struct exchange *exchange, struct web_reply *reply)
{
	const struct web_request *request = &exchange->request;
	struct page page;

	page_start(&page, request, _("Let a phone join"), PAGE_NOWHERE);
	page_say(&page,
		_("Point the phone's camera at this picture. It is good for "
		  "ten minutes and one phone, and lets it record."));
	page_chart(&page, "/pair/picture.svg",
		_("QR picture of the address that lets one phone join"));
	page_link(&page, _("To Today"), "/today");
	show(&page, reply);
}

static void
draw_pairing(
	struct door *door, struct exchange *exchange, struct web_reply *reply)
{
	char token[SESSION_HEX + 1];
	struct err err = err_in(exchange->arena);
	const char *address;

	sessions_pair_token(door->sessions, crew_now_ms(), token);
	address = text_format(
		exchange->arena, "%s%s%s", door->home, route_token, token);
	reply->no_store = true;
	reply->type = "image/svg+xml; charset=utf-8";
	if (address == NULL ||
		qr_svg(address, QR_ON_SCREEN, &reply->body, &err) != ERR_NONE)
		web_say(&exchange->request, reply,
			MHD_HTTP_INTERNAL_SERVER_ERROR, &err);
}

static bool
answer_own(
	struct door *door, struct exchange *exchange, struct web_reply *reply)
{
	const struct web_request *request = &exchange->request;
	bool post = request->method == WEB_POST;

	if (strcmp(request->path, route_sign_in) == 0)
		post ? sign_in(door, exchange, reply)
		     : show_sign_in(exchange, reply, NULL);
	else if (strcmp(request->path, route_sign_out) == 0)
		post ? sign_out(door, exchange, reply)
		     : show_sign_out(exchange, reply);
	else if (post)
		pair(door, exchange, reply);
	else
		show_token(exchange, reply, NULL);
	return true;
}

/* --- The certificate, for whoever has to trust it. --- */

static void
show_trust(
	struct door *door, struct exchange *exchange, struct web_reply *reply)
{
	const struct web_request *request = &exchange->request;
	struct page page;

	page_start(&page, request, _("Let this device trust the laptop"),
		PAGE_NOWHERE);
	page_say(&page,
		_("Once a device trusts the certificate of this book, its "
		  "warnings end and nobody on the same network can read or "
		  "change what is sent."));
	page_caution(&page,
		_("Compare the fingerprint with the one that the laptop "
		  "printed when the program was started. If they differ, "
		  "somebody stands in between: do not go on."));
	page_big(&page, _("Fingerprint, SHA-256"),
		door->certificate->fingerprint);
	page_link(&page, _("Take the certificate"), route_authority);
	page_heading(&page, _("On phones that call it a CA certificate"));
	page_say(&page,
		_("Open Settings, search for \"CA certificate\", choose "
		  "Install anyway, and take the file from the downloads."));
	page_heading(&page, _("On phones that call it a profile"));
	page_say(&page,
		_("Open Settings, Profile downloaded, Install. Then General, "
		  "About, Certificate trust settings: switch it on."));
	page_heading(&page, _("In a browser on a computer"));
	page_say(&page,
		_("Open the browser's settings, search for certificates, and "
		  "import the file among the authorities."));
	page_say(&page,
		_("It can vouch for addresses of private networks only. Remove "
		  "it from the device when the building is done."));
	show(&page, reply);
}

/* As text (PEM): that is what devices take, and holds no marks. */
static bool
answer_trust(
	struct door *door, struct exchange *exchange, struct web_reply *reply)
{
	const struct web_request *request = &exchange->request;

	if (door->certificate == NULL || request->method != WEB_GET)
		return false;
	if (strcmp(request->path, route_trust) == 0) {
		show_trust(door, exchange, reply);
		return true;
	}
	if (strcmp(request->path, route_authority) != 0)
		return false;
	reply->type = "application/x-x509-ca-cert";
	text_add(&reply->body, door->certificate->authority);
	return true;
}

bool
door_answer(
	struct door *door, struct exchange *exchange, struct web_reply *reply)
{
	const struct web_request *request = &exchange->request;

	*reply = (struct web_reply){.status = 0};
	text_init(&reply->body, exchange->arena);
	if (answer_trust(door, exchange, reply))
		return true;
	if (door->sessions == NULL)
		return false;
	if (door_is_own(exchange))
		return answer_own(door, exchange, reply);
	if (exchange->is_outside) {
		reply->see_other = route_sign_in;
		return true;
	}
	if (request->may_record && request->method == WEB_GET &&
		strcmp(request->path, route_pair) == 0) {
		show_pairing(exchange, reply);
		return true;
	}
	if (request->may_record && request->method == WEB_GET &&
		strcmp(request->path, route_picture) == 0) {
		draw_pairing(door, exchange, reply);
		return true;
	}
	return false;
}
