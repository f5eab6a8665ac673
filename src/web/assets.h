/* assets.h - the style, the script and the mark, compiled in. */
#ifndef WEB_ASSETS_H
#define WEB_ASSETS_H

#include <stddef.h>

struct web_asset {
	const char *path, *type; /* path NULL ends the list */
	const unsigned char *bytes;
	size_t n;
};

extern const struct web_asset web_assets[];

/* Their addresses, with a digest of their content in them, so that a browser
 * may keep them for ever. */
extern const char web_asset_css[], web_asset_script[];

#endif /* WEB_ASSETS_H */
