/* server.c - sockets, by libmicrohttpd; what is asked goes to the crew. */
#include "web/server.h"

#include "web/assets.h"
#include "web/crew.h"
#include "web/dispatch.h"
#include "web/guard.h"
#include "web/words.h"
#include "work/shelf.h"

#include <arpa/inet.h>
#include <errno.h>
#include <pthread.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

enum {
	STORE_ROOM = 32 << 20,
	READERS = 2,
	CONNECTIONS_MOST = 512,
	IDLE_S = 15,
	POST_BUFFER = 32 << 10,
	PACK_LEAST = 1024 /* bytes that are worth packing */
};

struct server {
	const struct web_server_ask *ask;
	struct guard guard;
	struct desk
		desk; /* of the thread that talks: to see the book's state */
	struct store *store;
	struct crew *crew;
	struct MHD_Daemon *daemon;
	pthread_mutex_t lock;
	pthread_cond_t idle;
	size_t n_open; /* exchanges that the crew has */
};

/* --- Answers on their way out. --- */

static void
add_header(struct MHD_Response *response, const char *name, const char *value)
{
	(void)MHD_add_response_header(response, name, value);
}

static void
add_usual_headers(struct MHD_Response *response, bool keep_long)
{
	add_header(response, "Content-Security-Policy",
		"default-src 'none'; script-src 'self'; style-src 'self'; "
		"img-src 'self'; connect-src 'self'; form-action 'self'; "
		"base-uri 'none'; frame-ancestors 'none'");
	add_header(response, "X-Content-Type-Options", "nosniff");
	add_header(response, "Referrer-Policy", "no-referrer");
	add_header(response, "Cross-Origin-Opener-Policy", "same-origin");
	add_header(response, "Cross-Origin-Resource-Policy", "same-origin");
	add_header(response, "X-Frame-Options", "DENY");
	add_header(response, "Cache-Control",
		keep_long ? "public, max-age=31536000, immutable" : "no-store");
}

static enum MHD_Result
queue(struct MHD_Connection *connection, int status,
	struct MHD_Response *response)
{
	enum MHD_Result done;

	if (response == NULL)
		return MHD_NO;
	done = MHD_queue_response(connection, (unsigned)status, response);
	MHD_destroy_response(response);
	return done;
}

static enum MHD_Result
send_plain(struct MHD_Connection *connection, int status, const char *why)
{
	struct MHD_Response *response = MHD_create_response_from_buffer(
		strlen(why), (void *)(uintptr_t)why, MHD_RESPMEM_MUST_COPY);

	if (response == NULL)
		return MHD_NO;
	add_header(response, "Content-Type", "text/plain; charset=utf-8");
	add_usual_headers(response, false);
	return queue(connection, status, response);
}

static bool
takes_packed(struct MHD_Connection *connection)
{
	const char *accepted = MHD_lookup_connection_value(
		connection, MHD_HEADER_KIND, MHD_HTTP_HEADER_ACCEPT_ENCODING);

	return accepted != NULL && strstr(accepted, "gzip") != NULL;
}

static void
give_back(void *answer)
{
	answer_give_back(answer);
}

/* The kept bytes themselves, counted for as long as they are sent. */
static struct MHD_Response *
respond_kept(struct answer *answer, bool packed)
{
	const unsigned char *bytes = packed ? answer->packed : answer->body;

	return MHD_create_response_from_buffer_with_free_callback_cls(
		packed ? answer->n_packed : answer->n_body,
		(void *)(uintptr_t)bytes, give_back, answer_again(answer));
}

static struct MHD_Response *
respond_filled(const struct answer *answer, const char *token, bool *packed)
{
	char key[GUARD_TOKEN_HEX + 1];
	unsigned char *bytes, *small = NULL;
	size_t n, n_small = 0;

	guard_key(key);
	bytes = answer_fill(answer, token, key, &n);
	if (bytes == NULL)
		return NULL;
	if (*packed && n >= PACK_LEAST)
		small = answer_pack(bytes, n, &n_small);
	*packed = small != NULL;
	if (small != NULL) {
		free(bytes);
		bytes = small;
		n = n_small;
	}
	return MHD_create_response_from_buffer(n, bytes, MHD_RESPMEM_MUST_FREE);
}

static enum MHD_Result
send_answer(
	struct server *server, struct exchange *exchange, struct answer *answer)
{
	bool packed = takes_packed(exchange->connection);
	struct MHD_Response *response;

	if (answer->has_marks) {
		char token[GUARD_TOKEN_HEX + 1];

		guard_token(&server->guard, exchange->session, token);
		response = respond_filled(answer, token, &packed);
	} else {
		packed = packed && answer->packed != NULL;
		response = respond_kept(answer, packed);
	}
	if (response == NULL)
		return MHD_NO;
	add_usual_headers(response, false);
	add_header(
		response, "Vary", "Accept-Encoding, Accept-Language, Cookie");
	if (answer->type != NULL)
		add_header(response, "Content-Type", answer->type);
	if (packed)
		add_header(response, "Content-Encoding", "gzip");
	if (answer->see_other != NULL)
		add_header(response, "Location", answer->see_other);
	if (answer->cookie != NULL)
		add_header(response, "Set-Cookie", answer->cookie);
	return queue(exchange->connection, answer->status, response);
}

static enum MHD_Result
send_refusal(struct server *server, struct exchange *exchange, int status,
	const char *why)
{
	struct web_reply reply = {.status = 0};
	struct err err = {.code = ERR_NONE};
	struct answer *answer;
	enum MHD_Result done;

	(void)err_report(&err, ERR_INPUT, "", "%s", why);
	web_say(&exchange->request, &reply, status, &err);
	if (reply.type == NULL)
		reply.type = "text/html; charset=utf-8";
	answer = answer_make(&reply);
	if (answer == NULL)
		return send_plain(exchange->connection, status, why);
	done = send_answer(server, exchange, answer);
	answer_give_back(answer);
	return done;
}

static const struct web_asset *
find_asset(const char *target)
{
	for (size_t i = 0; web_assets[i].path != NULL; i++)
		if (strcmp(web_assets[i].path, target) == 0)
			return &web_assets[i];
	return NULL;
}

static enum MHD_Result
send_asset(struct MHD_Connection *connection, const struct web_asset *asset)
{
	struct MHD_Response *response = MHD_create_response_from_buffer(
		asset->n, (void *)(uintptr_t)asset->bytes,
		MHD_RESPMEM_PERSISTENT);

	if (response == NULL)
		return MHD_NO;
	add_header(response, "Content-Type", asset->type);
	add_usual_headers(response, true);
	return queue(connection, MHD_HTTP_OK, response);
}

/* --- Requests coming in. --- */

static const char *
header(struct MHD_Connection *connection, const char *name)
{
	return MHD_lookup_connection_value(connection, MHD_HEADER_KIND, name);
}

static void
choose_language(struct exchange *exchange)
{
	const char *chosen = MHD_lookup_connection_value(
		exchange->connection, MHD_COOKIE_KIND, "language");
	const char *accepted = header(
		exchange->connection, MHD_HTTP_HEADER_ACCEPT_LANGUAGE);

	exchange->request.language = words_language(
		chosen != NULL ? chosen : accepted);
}

static bool
is_form(const char *type)
{
	static const char *const forms[] = {
		MHD_HTTP_POST_ENCODING_FORM_URLENCODED,
		MHD_HTTP_POST_ENCODING_MULTIPART_FORMDATA};

	for (size_t i = 0; type != NULL && i < 2; i++)
		if (strncasecmp(type, forms[i], strlen(forms[i])) == 0)
			return true;
	return false;
}

static void
begin_form(struct exchange *exchange)
{
	const char *type = header(
		exchange->connection, MHD_HTTP_HEADER_CONTENT_TYPE);

	exchange->n_most = EXCHANGE_FORM_MOST;
	if (!is_form(type)) {
		exchange_refuse(exchange, MHD_HTTP_UNSUPPORTED_MEDIA_TYPE,
			"Only a form can be sent here.");
		return;
	}
	if (strncasecmp(type, "multipart", 9) == 0)
		exchange->n_most = EXCHANGE_FILES_MOST;
	exchange->reader = MHD_create_post_processor(
		exchange->connection, POST_BUFFER, exchange_field, exchange);
	if (exchange->reader == NULL)
		exchange_refuse(exchange, MHD_HTTP_BAD_REQUEST,
			"The form could not be read.");
}

static void
begin(struct server *server, struct exchange *exchange, const char *method)
{
	struct err err = {.code = ERR_NONE};
	bool post = strcmp(method, MHD_HTTP_METHOD_POST) == 0;

	exchange->begun = true;
	exchange->request.method = post ? WEB_POST : WEB_GET;
	exchange->request.may_record = true;
	choose_language(exchange);
	if (!guard_host(&server->guard,
		    header(exchange->connection, MHD_HTTP_HEADER_HOST)))
		exchange_refuse(exchange, MHD_HTTP_MISDIRECTED_REQUEST,
			"This server was asked under a name that is not its "
			"own.");
	if (!post && strcmp(method, MHD_HTTP_METHOD_GET) != 0 &&
		strcmp(method, MHD_HTTP_METHOD_HEAD) != 0)
		exchange_refuse(exchange, MHD_HTTP_METHOD_NOT_ALLOWED,
			"Pages are asked for by GET and entries sent by POST.");
	if (web_address(exchange->arena, exchange->target, &exchange->request,
		    &err) != ERR_NONE)
		exchange_refuse(exchange, MHD_HTTP_BAD_REQUEST,
			arena_text(exchange->arena, err.text));
	if (post)
		begin_form(exchange);
}

static void
check_deed(struct server *server, struct exchange *exchange)
{
	const struct web_request *request = &exchange->request;

	exchange_end(exchange);
	if (!guard_origin(&server->guard,
		    header(exchange->connection, MHD_HTTP_HEADER_ORIGIN)))
		exchange_refuse(exchange, MHD_HTTP_FORBIDDEN,
			"This form came from another place.");
	if (!request->may_record)
		exchange_refuse(exchange, MHD_HTTP_FORBIDDEN,
			"You are signed in to read. Sign in to record, then "
			"send this again.");
	if (!guard_token_is(&server->guard, exchange->session,
		    web_given(request, "token")))
		exchange_refuse(exchange, MHD_HTTP_FORBIDDEN,
			"This form is from before the program was started. "
			"Open the page anew and send it again.");
	if (!guard_is_key(web_given(request, "key")))
		exchange_refuse(exchange, MHD_HTTP_BAD_REQUEST,
			"This form carries no key of its own. Open the page "
			"anew.");
}

/* To the crew; the connection waits. */
static enum MHD_Result
hand_over(struct server *server, struct exchange *exchange)
{
	(void)pthread_mutex_lock(&server->lock);
	server->n_open++;
	(void)pthread_mutex_unlock(&server->lock);
	exchange->waiting = true;
	MHD_suspend_connection(exchange->connection);
	crew_give(server->crew, exchange);
	return MHD_YES;
}

static enum MHD_Result
answer_page(struct server *server, struct exchange *exchange)
{
	const char *name = crew_name(exchange);
	char state[CREW_STATE_MAX];
	struct err err = {.code = ERR_NONE};
	struct answer *kept = NULL;
	enum MHD_Result done;

	if (name != NULL && crew_state(&server->desk, state, &err) == ERR_NONE)
		kept = store_find(server->store, name, state);
	if (kept == NULL)
		return hand_over(server, exchange);
	done = send_answer(server, exchange, kept);
	answer_give_back(kept);
	return done;
}

static enum MHD_Result
answer_whole(struct server *server, struct exchange *exchange)
{
	const struct web_asset *asset;

	if (exchange->refused == 0 && exchange->request.method == WEB_POST)
		check_deed(server, exchange);
	if (exchange->refused != 0)
		return send_refusal(server, exchange, exchange->refused,
			exchange->why != NULL ? exchange->why : "Refused.");
	if (exchange->request.method == WEB_POST)
		return hand_over(server, exchange);
	asset = find_asset(exchange->target);
	if (asset != NULL)
		return send_asset(exchange->connection, asset);
	return answer_page(server, exchange);
}

static enum MHD_Result
on_request(void *cls, struct MHD_Connection *connection, const char *url,
	const char *method, const char *version, const char *bytes, size_t *n,
	void **con_cls)
{
	struct server *server = cls;
	struct exchange *exchange = *con_cls;

	(void)url;
	(void)version;
	if (exchange == NULL)
		return send_plain(connection, MHD_HTTP_SERVICE_UNAVAILABLE,
			"There is not enough memory.\n");
	if (!exchange->begun) {
		exchange->connection = connection;
		begin(server, exchange, method);
		return MHD_YES;
	}
	if (*n > 0) {
		exchange_read(exchange, bytes, *n);
		*n = 0;
		return MHD_YES;
	}
	if (exchange->waiting)
		return exchange->answer != NULL
			? send_answer(server, exchange, exchange->answer)
			: send_plain(connection, MHD_HTTP_SERVICE_UNAVAILABLE,
				  "There is not enough memory.\n");
	return answer_whole(server, exchange);
}

static void *
on_target(void *cls, const char *uri, struct MHD_Connection *connection)
{
	(void)cls;
	(void)connection;
	return exchange_new(uri);
}

static void
on_end(void *cls, struct MHD_Connection *connection, void **con_cls,
	enum MHD_RequestTerminationCode code)
{
	(void)cls;
	(void)connection;
	(void)code;
	exchange_free(*con_cls);
	*con_cls = NULL;
}

/* In a thread of the crew. */
static void
on_ready(void *whom, struct exchange *exchange)
{
	struct server *server = whom;

	MHD_resume_connection(exchange->connection);
	(void)pthread_mutex_lock(&server->lock);
	server->n_open--;
	(void)pthread_cond_broadcast(&server->idle);
	(void)pthread_mutex_unlock(&server->lock);
}

/* --- Beginning and ending. --- */

static enum err_code
start_daemon(struct server *server, struct err *err)
{
	const struct web_server_ask *ask = server->ask;
	struct sockaddr_in address = {.sin_family = AF_INET,
		.sin_port = htons((uint16_t)ask->port),
		.sin_addr.s_addr = htonl(INADDR_LOOPBACK)};
	unsigned idle_s = ask->idle_s > 0 ? ask->idle_s : IDLE_S;

	errno = 0;
	server->daemon = MHD_start_daemon(MHD_USE_INTERNAL_POLLING_THREAD |
			MHD_USE_EPOLL | MHD_ALLOW_SUSPEND_RESUME,
		(uint16_t)ask->port, NULL, NULL, on_request, server,
		MHD_OPTION_SOCK_ADDR, &address, MHD_OPTION_CONNECTION_LIMIT,
		(unsigned)CONNECTIONS_MOST, MHD_OPTION_CONNECTION_TIMEOUT,
		idle_s, MHD_OPTION_URI_LOG_CALLBACK, on_target, server,
		MHD_OPTION_NOTIFY_COMPLETED, on_end, server, MHD_OPTION_END);
	if (server->daemon != NULL)
		return ERR_NONE;
	if (errno == EADDRINUSE)
		return err_report(err, ERR_CONFLICT, "--port",
			"Port %u is taken by another program. Give another, or "
			"--port 0 for a free one.",
			ask->port);
	return err_report(err, ERR_SYSTEM, "--port",
		"The pages could not be served on port %u: %s.", ask->port,
		strerror(errno));
}

static void
tell_address(struct server *server)
{
	const union MHD_DaemonInfo *info = MHD_get_daemon_info(
		server->daemon, MHD_DAEMON_INFO_BIND_PORT);
	unsigned port = info != NULL ? info->port : server->ask->port;
	char line[64];

	guard_name(&server->guard, "127.0.0.1", port);
	guard_name(&server->guard, "localhost", port);
	(void)snprintf(line, sizeof line, "http://127.0.0.1:%u/", port);
	server->ask->tell(server->ask->whom, line);
}

static void
wait_for_signal(const sigset_t *ends)
{
	int got = 0;

	while (sigwait(ends, &got) != 0)
		;
}

/* No more come in; what the crew has is finished and sent. */
static void
stop(struct server *server)
{
	MHD_socket listening = MHD_quiesce_daemon(server->daemon);

	crew_stop(server->crew);
	(void)pthread_mutex_lock(&server->lock);
	while (server->n_open > 0)
		(void)pthread_cond_wait(&server->idle, &server->lock);
	(void)pthread_mutex_unlock(&server->lock);
	MHD_stop_daemon(server->daemon);
	if (listening != MHD_INVALID_SOCKET)
		(void)close(listening);
}

static enum err_code
run(struct server *server, const sigset_t *ends, struct err *err)
{
	const struct crew_ask crew = {.book = server->ask->book,
		.who = server->ask->who,
		.n_reader = READERS,
		.store = server->store,
		.ready = on_ready,
		.whom = server};

	TRY(crew_desk(server->ask->book, server->ask->who, false, &server->desk,
		err));
	TRY(crew_start(&crew, &server->crew, err));
	if (start_daemon(server, err) != ERR_NONE) {
		crew_stop(server->crew);
		return err->code;
	}
	tell_address(server);
	wait_for_signal(ends);
	stop(server);
	return ERR_NONE;
}

enum err_code
web_serve(const struct web_server_ask *ask, struct err *err)
{
	struct server server = {.ask = ask};
	enum err_code code;
	sigset_t ends;

	(void)signal(SIGPIPE, SIG_IGN);
	(void)sigemptyset(&ends);
	(void)sigaddset(&ends, SIGINT);
	(void)sigaddset(&ends, SIGTERM);
	(void)pthread_sigmask(SIG_BLOCK, &ends, NULL); /* in all threads */
	guard_start(&server.guard, ask->tls);
	server.store = store_new(STORE_ROOM);
	if (server.store == NULL ||
		pthread_mutex_init(&server.lock, NULL) != 0 ||
		pthread_cond_init(&server.idle, NULL) != 0) {
		store_free(server.store);
		return err_memory(err);
	}
	code = run(&server, &ends, err);
	work_close(&server.desk);
	store_free(server.store);
	(void)pthread_cond_destroy(&server.idle);
	(void)pthread_mutex_destroy(&server.lock);
	return code;
}

enum err_code
web_get(const struct web_server_ask *ask, struct arena *arena,
	const char *address, struct text *page, int *status, struct err *err)
{
	struct web_request request = {.method = WEB_GET,
		.language = "en",
		.may_record = true,
		.arena = arena};
	struct web_reply reply;
	struct answer *answer;
	unsigned char *filled;
	static const char zeros[] = "00000000000000000000000000000000";
	size_t n;

	TRY(web_address(arena, address, &request, err));
	TRY(crew_desk(ask->book, ask->who, false, &request.desk, err));
	web_dispatch(&request, &reply);
	work_close(&request.desk);
	answer = answer_make(&reply);
	filled = answer != NULL ? answer_fill(answer, zeros, zeros, &n) : NULL;
	if (filled == NULL) {
		answer_give_back(answer);
		return err_memory(err);
	}
	text_add_n(page, (const char *)filled, n);
	*status = answer->status;
	free(filled);
	answer_give_back(answer);
	return text_failed(page) ? err_memory(err) : ERR_NONE;
}
