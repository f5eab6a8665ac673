/* store.c - a table of answers with the least recently asked for going first. */
#include "web/store.h"

#include "core/memo.h"
#include "web/html.h"

#include <pthread.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

enum {
	BUCKETS = 1024,
	RAW_WINDOW = 15,
	GZIP_WINDOW = RAW_WINDOW + 16,
	GZIP_TAIL = 2 + 8,
	STORED_HEAD = 5,
	FLUSH_MOST = 64, /* bytes that ending a part may add */
	PACK_LEVEL = 6
};

struct kept_answer {
	struct answer answer; /* first: one is the other */
	atomic_uint count;
	unsigned char *bytes; /* all texts and the body, one piece */
	unsigned char *packed;
	struct part *part; /* of a body with marks; NULL: not packed */
	size_t n_part;
};

/* What lies between two marks, packed by itself (RFC 1951): marks are put in
 * between as stored blocks, so that a page is packed once and not each time. */
struct part {
	size_t at, n_packed; /* in packed */
	size_t n_plain;
	uLong crc; /* of the plain bytes */
	char mark; /* that follows; 0: none, the last */
};

struct slot {
	struct slot *next;          /* in its bucket */
	struct slot *newer, *older; /* by when it was asked for */
	char *name, *state;
	struct answer *answer;
	size_t size;
};

/* What the memo may hold: the draws of all measures of a trial of eight mixes
 * take some 20 MB, so that those from before the last changes stay too. */
static const size_t memo_room = (size_t)48 << 20;

struct store {
	pthread_mutex_t lock;
	struct memo *memo;
	struct slot *bucket[BUCKETS];
	struct slot *newest, *oldest;
	size_t used, room;
};

/* --- One answer. --- */

static bool
holds_marks(const char *bytes, size_t n)
{
	return memchr(bytes, HTML_MARK_START, n) != NULL;
}

static const char *
place_text(unsigned char **at, const char *text)
{
	unsigned char *start = *at;
	size_t n;

	if (text == NULL)
		return NULL;
	n = strlen(text) + 1;
	memcpy(start, text, n);
	*at += n;
	return (const char *)start;
}

static size_t
text_size(const char *text)
{
	return text != NULL ? strlen(text) + 1 : 0;
}

unsigned char *
answer_pack(const unsigned char *bytes, size_t n, size_t *n_packed)
{
	z_stream z = {.next_in = NULL};
	unsigned char *out;
	size_t room;

	if (deflateInit2(&z, PACK_LEVEL, Z_DEFLATED, GZIP_WINDOW, 8,
		    Z_DEFAULT_STRATEGY) != Z_OK)
		return NULL;
	room = deflateBound(&z, (uLong)n);
	out = malloc(room);
	if (out != NULL) {
		unsigned char *from = NULL;

		memcpy(&from, &bytes, sizeof from); /* zlib takes no const */
		z.next_in = from;
		z.avail_in = (uInt)n;
		z.next_out = out;
		z.avail_out = (uInt)room;
		if (deflate(&z, Z_FINISH) != Z_STREAM_END) {
			free(out);
			out = NULL;
		}
	}
	*n_packed = (size_t)z.total_out;
	(void)deflateEnd(&z);
	return out;
}

/* Marks are of forms: data and pictures may hold that byte as what it is. */
static bool
is_page(const char *type)
{
	return type == NULL || strncmp(type, "text/html", 9) == 0;
}

struct answer *
answer_make(const struct web_reply *reply)
{
	struct kept_answer *kept = calloc(1, sizeof *kept);
	size_t n = reply->body.n, texts;
	unsigned char *at;

	if (kept == NULL)
		return NULL;
	texts = text_size(reply->type) + text_size(reply->see_other) +
		text_size(reply->cookie) + text_size(reply->attachment);
	kept->bytes = malloc(texts + n + 1);
	if (kept->bytes == NULL) {
		free(kept);
		return NULL;
	}
	atomic_init(&kept->count, 1);
	at = kept->bytes;
	kept->answer.type = place_text(&at, reply->type);
	kept->answer.see_other = place_text(&at, reply->see_other);
	kept->answer.cookie = place_text(&at, reply->cookie);
	kept->answer.attachment = place_text(&at, reply->attachment);
	if (n > 0)
		memcpy(at, reply->body.bytes, n);
	kept->answer.body = at;
	kept->answer.n_body = n;
	kept->answer.status = reply->status;
	kept->answer.has_marks = n > 0 && is_page(reply->type) &&
		holds_marks(reply->body.bytes, n);
	return &kept->answer;
}

static struct kept_answer *
kept_of(struct answer *answer)
{
	return (struct kept_answer *)(void *)answer;
}

struct answer *
answer_again(struct answer *answer)
{
	atomic_fetch_add(&kept_of(answer)->count, 1);
	return answer;
}

void
answer_give_back(struct answer *answer)
{
	struct kept_answer *kept;

	if (answer == NULL)
		return;
	kept = kept_of(answer);
	if (atomic_fetch_sub(&kept->count, 1) != 1)
		return;
	free(kept->packed);
	free(kept->part);
	free(kept->bytes);
	free(kept);
}

static size_t
count_marks(const struct answer *answer)
{
	size_t n = 0;

	for (size_t i = 0; i < answer->n_body; i++)
		n += answer->body[i] == HTML_MARK_START;
	return n;
}

/* The body cut at its marks; their number is that of the parts. */
static size_t
cut(const struct answer *answer, struct part *part, const unsigned char **start)
{
	const unsigned char *at = answer->body, *end = at + answer->n_body;
	size_t n = 0;

	for (;;) {
		const unsigned char *mark = memchr(
			at, HTML_MARK_START, (size_t)(end - at));

		if (mark == NULL || mark + 1 == end)
			mark = end;
		start[n] = at;
		part[n].n_plain = (size_t)(mark - at);
		part[n].crc = crc32_z(0, at, part[n].n_plain);
		part[n].mark = mark == end ? '\0' : (char)mark[1];
		n++;
		if (mark == end)
			return n;
		at = mark + 2;
	}
}

/* Each part ends at a whole byte and is looked back into by none after it. */
static bool
pack_part(z_stream *z, const unsigned char *start, struct part *part)
{
	unsigned char *from = NULL;

	part->at = (size_t)z->total_out;
	if (part->n_plain > 0) {
		memcpy(&from, &start, sizeof from); /* zlib takes no const */
		z->next_in = from;
		z->avail_in = (uInt)part->n_plain;
		if (deflate(z, Z_FULL_FLUSH) != Z_OK || z->avail_in > 0 ||
			z->avail_out == 0)
			return false;
	}
	part->n_packed = (size_t)z->total_out - part->at;
	return true;
}

static unsigned char *
pack_parts(const unsigned char *const *start, struct part *part, size_t n,
	size_t n_plain, size_t *n_packed)
{
	z_stream z = {.next_in = NULL};
	unsigned char *out;
	bool packed;
	size_t room;

	if (deflateInit2(&z, PACK_LEVEL, Z_DEFLATED, -RAW_WINDOW, 8,
		    Z_DEFAULT_STRATEGY) != Z_OK)
		return NULL;
	room = deflateBound(&z, (uLong)n_plain) + n * FLUSH_MOST;
	out = malloc(room);
	packed = out != NULL;
	z.next_out = out;
	z.avail_out = (uInt)room;
	for (size_t i = 0; i < n && packed; i++)
		packed = pack_part(&z, start[i], &part[i]);
	*n_packed = (size_t)z.total_out;
	(void)deflateEnd(&z);
	if (packed)
		return out;
	free(out);
	return NULL;
}

static void
pack_around_marks(struct kept_answer *kept)
{
	struct answer *answer = &kept->answer;
	size_t most = count_marks(answer) + 1;
	const unsigned char **start = calloc(most, sizeof *start);
	size_t n_packed = 0;

	kept->part = calloc(most, sizeof *kept->part);
	if (start != NULL && kept->part != NULL) {
		kept->n_part = cut(answer, kept->part, start);
		kept->packed = pack_parts(start, kept->part, kept->n_part,
			answer->n_body, &n_packed);
	}
	free(start);
	if (kept->packed == NULL) {
		free(kept->part);
		kept->part = NULL;
	}
	answer->n_packed = kept->packed != NULL ? n_packed : 0;
}

static void
pack_once(struct answer *answer)
{
	struct kept_answer *kept = kept_of(answer);

	if (answer->n_body == 0)
		return;
	if (answer->has_marks) {
		pack_around_marks(kept);
		return;
	}
	kept->packed = answer_pack(
		answer->body, answer->n_body, &answer->n_packed);
	answer->packed = kept->packed;
}

unsigned char *
answer_fill(const struct answer *answer, const char *token, const char *key,
	size_t *n)
{
	size_t n_token = strlen(token), n_key = strlen(key), m = 0;
	size_t longest = n_token > n_key ? n_token : n_key;
	unsigned char *out;

	out = malloc(answer->n_body + count_marks(answer) * longest + 1);
	if (out == NULL)
		return NULL;
	for (size_t i = 0; i < answer->n_body; i++) {
		unsigned char c = answer->body[i];

		if (c != HTML_MARK_START || i + 1 == answer->n_body) {
			out[m++] = c;
		} else if (answer->body[++i] == HTML_MARK_TOKEN) {
			memcpy(out + m, token, n_token);
			m += n_token;
		} else {
			memcpy(out + m, key, n_key);
			m += n_key;
		}
	}
	*n = m;
	return out;
}

static unsigned char *
put_stored(unsigned char *to, const char *mark, size_t n)
{
	unsigned low = (unsigned)n & 0xFF, high = ((unsigned)n >> 8) & 0xFF;

	*to++ = 0; /* a stored block, not the last; RFC 1951, 3.2.4 */
	*to++ = (unsigned char)low;
	*to++ = (unsigned char)high;
	*to++ = (unsigned char)(low ^ 0xFF);
	*to++ = (unsigned char)(high ^ 0xFF);
	memcpy(to, mark, n);
	return to + n;
}

static unsigned char *
put_number(unsigned char *to, uLong number)
{
	for (unsigned shift = 0; shift < 32; shift += 8)
		*to++ = (unsigned char)((number >> shift) & 0xFF);
	return to;
}

unsigned char *
answer_fill_packed(const struct answer *answer, const char *token,
	const char *key, size_t *n)
{
	/* RFC 1952, 2.3: no name, no time, made on Unix */
	static const unsigned char head[] = {31, 139, 8, 0, 0, 0, 0, 0, 0, 3};
	const struct kept_answer *kept = (const void *)answer;
	size_t longest = strlen(token) + strlen(key) + STORED_HEAD, plain = 0;
	uLong crc = 0;
	unsigned char *out, *to;

	if (kept->part == NULL)
		return NULL;
	out = malloc(sizeof head + answer->n_packed + kept->n_part * longest +
		GZIP_TAIL);
	if (out == NULL)
		return NULL;
	memcpy(out, head, sizeof head);
	to = out + sizeof head;
	for (size_t i = 0; i < kept->n_part; i++) {
		const struct part *part = &kept->part[i];
		const char *mark = part->mark == HTML_MARK_TOKEN ? token : key;
		size_t n_mark = strlen(mark);

		memcpy(to, kept->packed + part->at, part->n_packed);
		to += part->n_packed;
		crc = crc32_combine(crc, part->crc, (z_off_t)part->n_plain);
		plain += part->n_plain;
		if (part->mark == '\0')
			break;
		to = put_stored(to, mark, n_mark);
		crc = crc32_z(crc, (const unsigned char *)mark, n_mark);
		plain += n_mark;
	}
	*to++ = 3; /* an empty last block */
	*to++ = 0;
	to = put_number(put_number(to, crc), (uLong)plain);
	*n = (size_t)(to - out);
	return out;
}

/* --- The table. --- */

struct store *
store_new(size_t room)
{
	struct store *store = calloc(1, sizeof *store);

	if (store == NULL)
		return NULL;
	store->memo = memo_new(memo_room);
	if (store->memo == NULL ||
		pthread_mutex_init(&store->lock, NULL) != 0) {
		memo_free(store->memo);
		free(store);
		return NULL;
	}
	store->room = room;
	return store;
}

struct memo *
store_memo(const struct store *store)
{
	return store->memo;
}

static size_t
bucket_of(const char *name)
{
	uint64_t h = 1469598103934665603U; /* FNV-1a, 64 bits */

	for (; *name != '\0'; name++)
		h = (h ^ (unsigned char)*name) * 1099511628211U;
	return (size_t)(h % BUCKETS);
}

static void
unlink_age(struct store *store, struct slot *slot)
{
	if (slot->newer != NULL)
		slot->newer->older = slot->older;
	else
		store->newest = slot->older;
	if (slot->older != NULL)
		slot->older->newer = slot->newer;
	else
		store->oldest = slot->newer;
}

static void
link_newest(struct store *store, struct slot *slot)
{
	slot->newer = NULL;
	slot->older = store->newest;
	if (store->newest != NULL)
		store->newest->newer = slot;
	else
		store->oldest = slot;
	store->newest = slot;
}

static void
drop(struct store *store, struct slot *slot)
{
	struct slot **at = &store->bucket[bucket_of(slot->name)];

	while (*at != slot)
		at = &(*at)->next;
	*at = slot->next;
	unlink_age(store, slot);
	store->used -= slot->size;
	answer_give_back(slot->answer);
	free(slot->name);
	free(slot->state);
	free(slot);
}

static struct slot *
find_slot(const struct store *store, const char *name)
{
	struct slot *slot = store->bucket[bucket_of(name)];

	while (slot != NULL && strcmp(slot->name, name) != 0)
		slot = slot->next;
	return slot;
}

struct answer *
store_find(struct store *store, const char *name, const char *state)
{
	struct answer *found = NULL;
	struct slot *slot;

	(void)pthread_mutex_lock(&store->lock);
	slot = find_slot(store, name);
	if (slot != NULL && strcmp(slot->state, state) == 0) {
		unlink_age(store, slot);
		link_newest(store, slot);
		found = answer_again(slot->answer);
	} else if (slot != NULL) {
		drop(store, slot);
	}
	(void)pthread_mutex_unlock(&store->lock);
	return found;
}

static struct slot *
slot_new(const char *name, const char *state, struct answer *answer)
{
	struct slot *slot = calloc(1, sizeof *slot);

	if (slot == NULL)
		return NULL;
	slot->name = strdup(name);
	slot->state = strdup(state);
	if (slot->name == NULL || slot->state == NULL) {
		free(slot->name);
		free(slot->state);
		free(slot);
		return NULL;
	}
	slot->answer = answer_again(answer);
	slot->size = sizeof *slot + sizeof(struct kept_answer) + strlen(name) +
		strlen(state) + answer->n_body + answer->n_packed;
	return slot;
}

void
store_put(struct store *store, const char *name, const char *state,
	struct answer *answer)
{
	struct slot *slot, *before;

	pack_once(answer);
	slot = slot_new(name, state, answer);
	if (slot == NULL)
		return; /* it is made again when asked for */
	(void)pthread_mutex_lock(&store->lock);
	before = find_slot(store, name);
	if (before != NULL)
		drop(store, before);
	slot->next = store->bucket[bucket_of(name)];
	store->bucket[bucket_of(name)] = slot;
	link_newest(store, slot);
	store->used += slot->size;
	while (store->used > store->room && store->oldest != NULL)
		drop(store, store->oldest);
	(void)pthread_mutex_unlock(&store->lock);
}

void
store_free(struct store *store)
{
	if (store == NULL)
		return;
	while (store->oldest != NULL)
		drop(store, store->oldest);
	memo_free(store->memo);
	(void)pthread_mutex_destroy(&store->lock);
	free(store);
}
