/* server.c - sockets, by libmicrohttpd; what is asked goes to the crew. */
#include "web/server.h"

#include "web/assets.h"
#include "web/certificate.h"
#include "web/crew.h"
#include "web/door.h"
#include "web/dispatch.h"
#include "web/guard.h"
#include "web/qr.h"
#include "web/watchdog.h"
#include "web/words.h"
#include "work/shelf.h"

#include <arpa/inet.h>
#include <errno.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <pthread.h>
#include <signal.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <time.h>
#include <unistd.h>

enum {
	STORE_ROOM = 32 << 20,
	READERS = 2,
	CONNECTIONS_MOST = 512,
	CONNECTIONS_OF_ONE = 128,
	IDLE_S = 15,
	REQUEST_S = 30, /* for the head of a request, idle_s included */
	FORM_S = 600,   /* photos over a poor network take long */
	GRACE_MS = 700, /* for pages being made when the program is ended */
	FAREWELL_S = 5, /* for the last answers to reach their readers */
	DRAIN_MOST = 64 << 20,
	POST_BUFFER = 32 << 10,
	PACK_LEAST = 1024, /* bytes that are worth packing */
	ASSETS_MOST = 8
};

/* A static file as gzip; NULL: not worth it, or no memory. */
struct packed {
	unsigned char *bytes;
	size_t n;
};

struct server {
	const struct web_server_ask *ask;
	struct guard guard;
	struct door door;
	char home[96]; /* the address for other machines */
	struct certificate certificate;
	const char *scheme;
	int listening;
	unsigned port;
	struct desk
		desk; /* of the thread that talks: to see the book's state */
	struct store *store;
	struct crew *crew;
	struct watchdog *dog;
	struct packed packed[ASSETS_MOST]; /* beside web_assets */
	char policy_of_page[384];
	struct MHD_Daemon *daemon;
	pthread_mutex_t lock;
	pthread_cond_t idle;
	bool stopping;
	size_t n_given;  /* exchanges that the crew has */
	size_t n_unsent; /* and those whose answer is not sent yet */
};

/* --- Answers on their way out. --- */

static void
add_header(struct MHD_Response *response, const char *name, const char *value)
{
	(void)MHD_add_response_header(response, name, value);
}

/* A picture holds its own style, for light and dark, and nothing else. */
static const char policy_of_picture[] =
	"default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'";
/* What somebody sent in: shown as a picture and as nothing else. */
static const char policy_of_photo[] =
	"default-src 'none'; sandbox; frame-ancestors 'none'";
static const char policy_format[] =
	"default-src 'none'; script-src 'self'; style-src '%s'; "
	"img-src 'self'; connect-src 'self'; form-action 'self'; "
	"base-uri 'none'; frame-ancestors 'none'";

static void
add_usual_headers(const struct server *server, struct MHD_Response *response,
	const char *type, bool keep_long)
{
	bool picture = type != NULL && strncmp(type, "image/svg", 9) == 0;
	bool photo = !picture && type != NULL &&
		strncmp(type, "image/", 6) == 0;

	add_header(response, "Content-Security-Policy",
		photo             ? policy_of_photo
			: picture ? policy_of_picture
				  : server->policy_of_page);
	add_header(response, "X-Content-Type-Options", "nosniff");
	/* with "no-referrer" a browser sends plain forms with a null origin */
	add_header(response, "Referrer-Policy", "same-origin");
	add_header(response, "Cross-Origin-Opener-Policy", "same-origin");
	add_header(response, "Cross-Origin-Resource-Policy", "same-origin");
	add_header(response, "X-Frame-Options", "DENY");
	add_header(response, "Cache-Control",
		keep_long       ? "public, max-age=31536000, immutable"
			: photo ? "private, max-age=86400"
				: "no-store");
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
send_plain(const struct server *server, struct MHD_Connection *connection,
	int status, const char *why)
{
	struct MHD_Response *response = MHD_create_response_from_buffer(
		strlen(why), (void *)(uintptr_t)why, MHD_RESPMEM_MUST_COPY);

	if (response == NULL)
		return MHD_NO;
	add_header(response, "Content-Type", "text/plain; charset=utf-8");
	add_usual_headers(server, response, NULL, false);
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
	bytes = *packed ? answer_fill_packed(answer, token, key, &n) : NULL;
	if (bytes != NULL)
		return MHD_create_response_from_buffer(
			n, bytes, MHD_RESPMEM_MUST_FREE);
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
	add_usual_headers(server, response, answer->type, false);
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
	if (answer->attachment != NULL)
		add_header(response, "Content-Disposition", answer->attachment);
	return queue(exchange->connection, answer->status, response);
}

/* A reply made in this thread. */
static enum MHD_Result
send_reply(struct server *server, struct exchange *exchange,
	struct web_reply *reply)
{
	struct answer *answer;
	enum MHD_Result done;

	if (reply->status == 0)
		reply->status = reply->see_other != NULL ? MHD_HTTP_SEE_OTHER
							 : MHD_HTTP_OK;
	if (reply->type == NULL)
		reply->type = "text/html; charset=utf-8";
	answer = answer_make(reply);
	if (answer == NULL)
		return send_plain(server, exchange->connection,
			MHD_HTTP_SERVICE_UNAVAILABLE,
			"There is not enough memory.\n");
	done = send_answer(server, exchange, answer);
	answer_give_back(answer);
	return done;
}

static enum MHD_Result
send_refusal(struct server *server, struct exchange *exchange, int status,
	const char *why)
{
	struct web_reply reply = {.status = 0};
	struct err err = err_in(exchange->arena);

	(void)err_report(&err, ERR_INPUT, "", "%s", why);
	web_say(&exchange->request, &reply, status, &err);
	return send_reply(server, exchange, &reply);
}

static const struct web_asset *
find_asset(const char *target)
{
	for (size_t i = 0; web_assets[i].path != NULL; i++)
		if (strcmp(web_assets[i].path, target) == 0)
			return &web_assets[i];
	return NULL;
}

static void
pack_assets(struct server *server)
{
	for (size_t i = 0; i < ASSETS_MOST && web_assets[i].path != NULL; i++)
		if (web_assets[i].n >= PACK_LEAST)
			server->packed[i].bytes = answer_pack(
				web_assets[i].bytes, web_assets[i].n,
				&server->packed[i].n);
}

static enum MHD_Result
send_asset(const struct server *server, struct MHD_Connection *connection,
	const struct web_asset *asset)
{
	const struct packed none = {NULL, 0};
	size_t i = (size_t)(asset - web_assets);
	struct packed packed = i < ASSETS_MOST && takes_packed(connection)
		? server->packed[i]
		: none;
	bool small = packed.bytes != NULL;
	struct MHD_Response *response = MHD_create_response_from_buffer(
		small ? packed.n : asset->n,
		small ? (void *)packed.bytes : (void *)(uintptr_t)asset->bytes,
		MHD_RESPMEM_PERSISTENT);

	if (response == NULL)
		return MHD_NO;
	add_header(response, "Content-Type", asset->type);
	add_usual_headers(server, response, asset->type,
		strcmp(asset->path, WEB_ASSET_WORKER) != 0);
	add_header(response, "Vary", "Accept-Encoding");
	if (small)
		add_header(response, "Content-Encoding", "gzip");
	return queue(connection, MHD_HTTP_OK, response);
}

/* --- Requests coming in. --- */

static const char *
header(struct MHD_Connection *connection, const char *name)
{
	return MHD_lookup_connection_value(connection, MHD_HEADER_KIND, name);
}

static const char *
cookie(const struct exchange *exchange, const char *name)
{
	return MHD_lookup_connection_value(
		exchange->connection, MHD_COOKIE_KIND, name);
}

/* Language and units. */
static void
choose_manner(struct exchange *exchange)
{
	const char *units = cookie(exchange, "units");
	const char *chosen = cookie(exchange, "language");
	const char *accepted = header(
		exchange->connection, MHD_HTTP_HEADER_ACCEPT_LANGUAGE);

	exchange->request.language = words_language(
		chosen != NULL ? chosen : accepted);
	arena_speak(exchange->arena, words_tongue(exchange->request.language));
	exchange->request.both_units = units != NULL &&
		strcmp(units, "both") == 0;
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

static struct caller *
caller_of(struct MHD_Connection *connection)
{
	const union MHD_ConnectionInfo *info = MHD_get_connection_info(
		connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT);

	return info != NULL ? info->socket_context : NULL;
}

/* Headers that a request may have once, or not together: RFC 9112, 3.2 and
 * 6.1. */
struct header_count {
	size_t host, length, coding;
};

static enum MHD_Result
count_header(
	void *cls, enum MHD_ValueKind kind, const char *name, const char *value)
{
	struct header_count *count = cls;

	(void)kind;
	(void)value;
	count->host += strcasecmp(name, MHD_HTTP_HEADER_HOST) == 0;
	count->length += strcasecmp(name, MHD_HTTP_HEADER_CONTENT_LENGTH) == 0;
	count->coding += strcasecmp(name, MHD_HTTP_HEADER_TRANSFER_ENCODING) ==
		0;
	return MHD_YES;
}

static void
check_headers(struct exchange *exchange)
{
	struct header_count count = {0};

	(void)MHD_get_connection_values(
		exchange->connection, MHD_HEADER_KIND, count_header, &count);
	if (count.host > 1 || count.length + count.coding > 1)
		exchange_refuse(exchange, MHD_HTTP_BAD_REQUEST,
			"The request says twice, and differently, where it "
			"goes or how long it is.");
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

/* Asked from this very machine. */
static bool
is_near(struct MHD_Connection *connection)
{
	const union MHD_ConnectionInfo *info = MHD_get_connection_info(
		connection, MHD_CONNECTION_INFO_CLIENT_ADDRESS);
	struct sockaddr_in from;

	if (info == NULL || info->client_addr->sa_family != AF_INET)
		return false;
	memcpy(&from, info->client_addr, sizeof from);
	return (ntohl(from.sin_addr.s_addr) >> 24) == IN_LOOPBACKNET;
}

static void
begin(struct server *server, struct exchange *exchange, const char *method)
{
	struct err err = err_in(exchange->arena);
	bool post = strcmp(method, MHD_HTTP_METHOD_POST) == 0;

	exchange->begun = true;
	exchange->request.method = post ? WEB_POST : WEB_GET;
	caller_part(server->dog, caller_of(exchange->connection), CALLER_FORM);
	choose_manner(exchange);
	check_headers(exchange);
	door_enter(&server->door, exchange,
		MHD_lookup_connection_value(
			exchange->connection, MHD_COOKIE_KIND, "session"),
		is_near(exchange->connection));
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
	if (!request->may_record && !door_is_own(exchange))
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
	bool stopping;

	(void)pthread_mutex_lock(&server->lock);
	stopping = server->stopping;
	if (!stopping) {
		server->n_given++;
		server->n_unsent++;
	}
	(void)pthread_mutex_unlock(&server->lock);
	if (stopping)
		return send_refusal(server, exchange,
			MHD_HTTP_SERVICE_UNAVAILABLE,
			"The program is being ended. Start it again, then send "
			"this again.");
	exchange->waiting = true;
	MHD_suspend_connection(exchange->connection);
	crew_give(server->crew, exchange);
	return MHD_YES;
}

/* Looking at a code takes long on purpose: not in the thread that talks. */
static void
look_at_code(void *whom, struct exchange *exchange, struct web_reply *reply)
{
	(void)door_answer(whom, exchange, reply);
}

static enum MHD_Result
answer_page(struct server *server, struct exchange *exchange)
{
	const char *name = crew_name(exchange);
	char state[CREW_STATE_MAX];
	struct err err = err_in(exchange->arena);
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
	struct web_reply reply;

	if (exchange->refused == 0 && exchange->request.method == WEB_POST)
		check_deed(server, exchange);
	if (exchange->refused != 0)
		return send_refusal(server, exchange, exchange->refused,
			exchange->why != NULL ? exchange->why : "Refused.");
	asset = find_asset(exchange->target);
	if (asset != NULL && exchange->request.method == WEB_GET)
		return send_asset(server, exchange->connection, asset);
	if (door_looks_at_code(&server->door, exchange)) {
		exchange->errand = look_at_code;
		exchange->errand_whom = &server->door;
		return hand_over(server, exchange);
	}
	if (door_answer(&server->door, exchange, &reply))
		return send_reply(server, exchange, &reply);
	if (exchange->request.method == WEB_POST)
		return hand_over(server, exchange);
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
	if (exchange != NULL && exchange->n_read > DRAIN_MOST)
		return MHD_NO;
	if (exchange == NULL)
		return send_plain(server, connection,
			MHD_HTTP_SERVICE_UNAVAILABLE,
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
			: send_plain(server, connection,
				  MHD_HTTP_SERVICE_UNAVAILABLE,
				  "There is not enough memory.\n");
	caller_part(server->dog, caller_of(connection), CALLER_NOTHING);
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
	struct server *server = cls;
	const struct exchange *exchange = *con_cls;

	(void)code;
	if (exchange != NULL && exchange->waiting) {
		(void)pthread_mutex_lock(&server->lock);
		server->n_unsent--;
		(void)pthread_cond_broadcast(&server->idle);
		(void)pthread_mutex_unlock(&server->lock);
	}
	exchange_free(*con_cls);
	*con_cls = NULL;
	caller_part(server->dog, caller_of(connection), CALLER_REQUEST);
}

static void
on_connection(void *cls, struct MHD_Connection *connection,
	void **socket_context, enum MHD_ConnectionNotificationCode code)
{
	struct server *server = cls;

	if (code == MHD_CONNECTION_NOTIFY_CLOSED) {
		caller_gone(server->dog, *socket_context);
		*socket_context = NULL;
		return;
	}
	const union MHD_ConnectionInfo *info = MHD_get_connection_info(
		connection, MHD_CONNECTION_INFO_CONNECTION_FD);

	*socket_context = info != NULL
		? caller_new(server->dog, info->connect_fd)
		: NULL;
}

/* In a thread of the crew. */
static void
on_ready(void *whom, struct exchange *exchange)
{
	struct server *server = whom;

	MHD_resume_connection(exchange->connection);
	(void)pthread_mutex_lock(&server->lock);
	server->n_given--;
	(void)pthread_cond_broadcast(&server->idle);
	(void)pthread_mutex_unlock(&server->lock);
}

/* --- Beginning and ending. --- */

/* Ours and not the library's, so that the port is known before any thread
 * starts. */
static enum err_code
listen_on(struct server *server, struct err *err)
{
	const struct web_server_ask *ask = server->ask;
	struct sockaddr_in address = {.sin_family = AF_INET,
		.sin_port = htons((uint16_t)ask->port),
		.sin_addr.s_addr = htonl(
			ask->lan ? INADDR_ANY : INADDR_LOOPBACK)};
	socklen_t n = sizeof address;
	const int yes = 1;
	int s = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0);

	server->listening = s;
	if (s >= 0 &&
		setsockopt(s, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes) ==
			0 &&
		bind(s, (struct sockaddr *)&address, n) == 0 &&
		listen(s, SOMAXCONN) == 0 &&
		getsockname(s, (struct sockaddr *)&address, &n) == 0) {
		server->port = ntohs(address.sin_port);
		return ERR_NONE;
	}
	if (errno == EADDRINUSE)
		return err_report(err, ERR_CONFLICT, "--port",
			"Port %u is taken by another program. Give another, or "
			"--port 0 for a free one.",
			ask->port);
	return err_report(err, ERR_SYSTEM, "--port",
		"The pages could not be served on port %u: %s.", ask->port,
		strerror(errno));
}

static enum err_code
start_daemon(struct server *server, struct err *err)
{
	const struct certificate *shown = server->door.certificate;
	unsigned idle_s = server->ask->idle_s > 0 ? server->ask->idle_s
						  : IDLE_S;
	unsigned flags = MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_EPOLL |
		MHD_ALLOW_SUSPEND_RESUME;
	struct MHD_OptionItem secret[] = {
		{MHD_OPTION_HTTPS_MEM_KEY, 0, server->certificate.key},
		{MHD_OPTION_HTTPS_MEM_CERT, 0, server->certificate.chain},
		{MHD_OPTION_HTTPS_PRIORITIES, 0,
			(void *)(uintptr_t) "NORMAL:-VERS-ALL:+VERS-TLS1.3:"
					    "+VERS-TLS1.2"},
		{MHD_OPTION_END, 0, NULL}};

	if (shown == NULL)
		secret[0].option = MHD_OPTION_END;
	server->daemon = MHD_start_daemon(
		flags | (shown != NULL ? MHD_USE_TLS : 0),
		(uint16_t)server->port, NULL, NULL, on_request, server,
		MHD_OPTION_LISTEN_SOCKET, server->listening,
		MHD_OPTION_CONNECTION_LIMIT, (unsigned)CONNECTIONS_MOST,
		MHD_OPTION_CONNECTION_TIMEOUT, idle_s,
		MHD_OPTION_PER_IP_CONNECTION_LIMIT,
		(unsigned)CONNECTIONS_OF_ONE, MHD_OPTION_NOTIFY_CONNECTION,
		on_connection, server, MHD_OPTION_URI_LOG_CALLBACK, on_target,
		server, MHD_OPTION_NOTIFY_COMPLETED, on_end, server,
		MHD_OPTION_ARRAY, secret, MHD_OPTION_END);
	if (server->daemon != NULL)
		return ERR_NONE;
	return err_report(err, ERR_SYSTEM, "--port",
		"The pages could not be served on port %u.", server->port);
}

/* Every address of this machine on a network is a name of the server. */
static void
name_networks(struct server *server, unsigned port)
{
	struct ifaddrs *all = NULL;

	if (getifaddrs(&all) != 0)
		return;
	for (const struct ifaddrs *one = all; one != NULL;
		one = one->ifa_next) {
		struct sockaddr_in at;
		char host[INET_ADDRSTRLEN];

		if (one->ifa_addr == NULL ||
			one->ifa_addr->sa_family != AF_INET ||
			(one->ifa_flags & IFF_LOOPBACK) != 0)
			continue;
		memcpy(&at, one->ifa_addr, sizeof at);
		if (inet_ntop(AF_INET, &at.sin_addr, host, sizeof host) == NULL)
			continue;
		guard_name(&server->guard, host, port);
		if (server->home[0] == '\0')
			(void)snprintf(server->home, sizeof server->home,
				"%s://%s:%u", server->scheme, host, port);
	}
	freeifaddrs(all);
}

static void
tell(const struct server *server, const char *line)
{
	server->ask->tell(server->ask->whom, line);
}

/* The codes, which are told once. */
struct codes {
	char record[SESSION_CODE + 1], read[SESSION_CODE + 1];
};

static enum err_code
open_door(struct server *server, struct codes *codes, struct err *err)
{
	server->door.home = server->home;
	return sessions_new(
		codes->record, codes->read, &server->door.sessions, err);
}

static enum err_code
tell_codes(struct server *server, struct arena *arena,
	const struct codes *codes, const char *token, struct err *err)
{
	struct text said;

	text_init(&said, arena);
	text_addf(&said, "%s/ for other machines\n", server->home);
	text_addf(&said, "code to record: %s\ncode to read:   %s\n",
		codes->record, codes->read);
	text_add(&said,
		"A phone that reads this picture may record; it is good for "
		"ten minutes and one phone:\n");
	TRY(qr_terminal(text_format(arena, "%s/pair/%s", server->home, token),
		&said, err));
	if (text_failed(&said))
		return err_memory(err);
	said.bytes[said.n - 1] = '\0'; /* tell ends the line */
	tell(server, said.bytes);
	return ERR_NONE;
}

/* The hosts of the names that this server answers to. */
static enum err_code
open_certificate(struct server *server, struct err *err)
{
	char host[GUARD_NAMES_MOST][GUARD_NAME_MAX];
	const char *list[GUARD_NAMES_MOST];
	size_t n = server->guard.n_name;

	for (size_t i = 0; i < n; i++) {
		memcpy(host[i], server->guard.name[i], GUARD_NAME_MAX);
		host[i][strcspn(host[i], ":")] = '\0';
		list[i] = host[i];
	}
	TRY(certificate_open(server->ask->book, list, n, (int64_t)time(NULL),
		&server->certificate, err));
	server->door.certificate = &server->certificate;
	return ERR_NONE;
}

/* Names, before anybody can ask under one. */
static enum err_code
take_names(struct server *server, struct err *err)
{
	guard_name(&server->guard, "127.0.0.1", server->port);
	guard_name(&server->guard, "localhost", server->port);
	if (server->ask->lan)
		name_networks(server, server->port);
	if (server->ask->lan && server->home[0] == '\0')
		return err_report(err, ERR_SYSTEM, "--lan",
			"This machine is on no network.");
	server->door.tls = server->ask->tls;
	return server->ask->tls ? open_certificate(server, err) : ERR_NONE;
}

static enum err_code
tell_address(struct server *server, struct arena *arena, struct err *err)
{
	const char *line = text_format(
		arena, "%s://127.0.0.1:%u/", server->scheme, server->port);

	if (line == NULL)
		return err_memory(err);
	tell(server, line);
	if (server->ask->tls) {
		line = text_format(arena,
			"its certificate is vouched for by SHA-256 %s",
			server->certificate.fingerprint);
		if (line == NULL)
			return err_memory(err);
		tell(server, line);
	}
	return ERR_NONE;
}

static void
wait_for_signal(const sigset_t *ends)
{
	int got = 0;

	while (sigwait(ends, &got) != 0)
		;
}

/* Until every answer is on its way, or its reader is too slow. */
static void
wait_for_last(struct server *server)
{
	struct timespec until;

	(void)clock_gettime(CLOCK_REALTIME, &until);
	until.tv_sec += FAREWELL_S;
	(void)pthread_mutex_lock(&server->lock);
	while (server->n_unsent > 0 &&
		pthread_cond_timedwait(&server->idle, &server->lock, &until) ==
			0)
		;
	(void)pthread_mutex_unlock(&server->lock);
}

/* No more come in; deeds are finished and sent, and pages that are ready soon.
 * Where one is long in the making the process ends here: the thread that makes
 * it only reads, and nothing but the end of the process stops it. */
static void
stop(struct server *server)
{
	bool all_done;

	/* gives the socket back, which is closed at the very end */
	(void)MHD_quiesce_daemon(server->daemon);
	(void)pthread_mutex_lock(&server->lock);
	server->stopping = true;
	(void)pthread_mutex_unlock(&server->lock);
	all_done = crew_leave(server->crew, GRACE_MS);
	(void)pthread_mutex_lock(&server->lock);
	while (server->n_given > 0)
		(void)pthread_cond_wait(&server->idle, &server->lock);
	(void)pthread_mutex_unlock(&server->lock);
	if (all_done)
		crew_stop(server->crew);
	wait_for_last(server);
	MHD_stop_daemon(server->daemon);
	if (!all_done)
		_exit(0);
}

/* Everything that needs no thread. */
static enum err_code
prepare(struct server *server, struct codes *codes, struct err *err)
{
	TRY(crew_desk(server->ask->book, server->ask->who, false, &server->desk,
		err));
	TRY(listen_on(server, err));
	TRY(take_names(server, err));
	return server->ask->lan ? open_door(server, codes, err) : ERR_NONE;
}

static enum err_code
start(struct server *server, struct err *err)
{
	const struct crew_ask crew = {.book = server->ask->book,
		.who = server->ask->who,
		.home = server->home[0] != '\0' ? server->home : NULL,
		.n_reader = READERS,
		.store = server->store,
		.ready = on_ready,
		.whom = server};

	server->dog = watchdog_start(
		server->ask->request_s > 0 ? server->ask->request_s : REQUEST_S,
		FORM_S);
	if (server->dog == NULL)
		return err_memory(err);
	TRY(crew_start(&crew, &server->crew, err));
	if (start_daemon(server, err) != ERR_NONE) {
		crew_stop(server->crew);
		return err->code;
	}
	return ERR_NONE;
}

static enum err_code
run(struct server *server, struct arena *arena, const sigset_t *ends,
	struct err *err)
{
	char token[SESSION_HEX + 1] = "";
	struct codes codes;
	enum err_code code;

	TRY(prepare(server, &codes, err));
	if (server->ask->lan) /* before a thread can ask for another */
		sessions_pair_token(
			server->door.sessions, crew_now_ms(), token);
	TRY(start(server, err));
	code = tell_address(server, arena, err);
	if (code == ERR_NONE && server->ask->lan)
		code = tell_codes(server, arena, &codes, token, err);
	sodium_memzero(&codes, sizeof codes);
	if (code == ERR_NONE)
		wait_for_signal(ends);
	stop(server);
	return code;
}

enum err_code
web_serve(const struct web_server_ask *ask, struct err *err)
{
	struct server server = {.ask = ask,
		.scheme = ask->tls ? "https" : "http",
		.listening = -1};
	struct arena *arena = arena_new((size_t)1 << 20);
	enum err_code code;
	sigset_t ends;

	(void)signal(SIGPIPE, SIG_IGN);
	(void)sigemptyset(&ends);
	(void)sigaddset(&ends, SIGINT);
	(void)sigaddset(&ends, SIGTERM);
	(void)pthread_sigmask(SIG_BLOCK, &ends, NULL); /* in all threads */
	guard_start(&server.guard, ask->tls);
	server.store = store_new(STORE_ROOM);
	if (server.store == NULL || arena == NULL ||
		pthread_mutex_init(&server.lock, NULL) != 0 ||
		pthread_cond_init(&server.idle, NULL) != 0) {
		store_free(server.store);
		arena_free(arena);
		return err_memory(err);
	}
	pack_assets(&server);
	(void)snprintf(server.policy_of_page, sizeof server.policy_of_page,
		policy_format, web_style_digest);
	code = run(&server, arena, &ends, err);
	watchdog_stop(server.dog);
	work_close(&server.desk);
	if (server.listening >= 0)
		(void)close(server.listening);
	sodium_memzero(&server.certificate, sizeof server.certificate);
	sessions_free(server.door.sessions);
	arena_free(arena);
	for (size_t i = 0; i < ASSETS_MOST; i++)
		free(server.packed[i].bytes);
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
