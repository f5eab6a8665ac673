/* page_data.c - the blocks of a page as JSON, and one of its tables as CSV. */
#include "web/page_priv.h"

#include "core/jsonout.h"

#include <string.h>

static const char *
key_of(enum block_kind kind)
{
	switch (kind) {
	case BLOCK_HEADING:
		return "heading";
	case BLOCK_CAUTION:
		return "caution";
	case BLOCK_ALARM:
		return "alarm";
	case BLOCK_DONE:
		return "done";
	case BLOCK_BIG:
		return "figure";
	case BLOCK_SAY:
	case BLOCK_LINK:
	case BLOCK_GRID:
	case BLOCK_TICKS:
	case BLOCK_LABELS:
	case BLOCK_CHART:
	case BLOCK_PHOTO:
	case BLOCK_FORM:
		break;
	}
	return "say";
}

enum err_code
page_answer_json(
	const struct page *page, struct web_reply *reply, struct err *err)
{
	struct jsonout json;

	reply->type = "application/json; charset=utf-8";
	jsonout_init(&json, &reply->body);
	jsonout_open_object(&json);
	jsonout_key_string(&json, "title", page->title);
	jsonout_key(&json, "says");
	jsonout_open_array(&json);
	for (size_t i = 0; i < page->n_block; i++) {
		const struct page_block *block = &page->block[i];

		if (block->text == NULL || block->kind == BLOCK_CHART ||
			block->kind == BLOCK_PHOTO || block->kind == BLOCK_LINK)
			continue;
		jsonout_open_object(&json);
		jsonout_key_string(&json, key_of(block->kind), block->text);
		if (block->kind == BLOCK_BIG)
			jsonout_key_string(&json, "value", block->second);
		jsonout_close_object(&json);
	}
	jsonout_close_array(&json);
	jsonout_key(&json, "tables");
	jsonout_open_object(&json);
	for (size_t i = 0; i < page->n_block; i++)
		if (page->block[i].grid != NULL) {
			jsonout_key(&json, page->block[i].grid->key);
			grid_json(page->block[i].grid, &json);
		}
	jsonout_close_object(&json);
	jsonout_close_object(&json);
	text_add_char(&reply->body, '\n');
	if (jsonout_failed(&json) || page->failed)
		return err_report(err, ERR_NUMERIC, "",
			"This page holds a figure that is not finite, or does "
			"not fit into memory.");
	return ERR_NONE;
}

enum err_code
page_answer_csv(
	const struct page *page, struct web_reply *reply, struct err *err)
{
	const char *wanted = web_query(page->request, "table");

	for (size_t i = 0; i < page->n_block; i++) {
		const struct grid *grid = page->block[i].grid;

		if (grid == NULL ||
			(wanted != NULL && strcmp(wanted, grid->key) != 0))
			continue;
		reply->type = "text/csv; charset=utf-8; header=present";
		grid_csv(grid, &reply->body);
		return text_failed(&reply->body) || page->failed
			? err_memory(err)
			: ERR_NONE;
	}
	return err_report(err, ERR_NOT_FOUND, "table",
		"This page has no table%s%.60s%s.", wanted != NULL ? " \"" : "",
		wanted != NULL ? wanted : "", wanted != NULL ? "\"" : "");
}
