/* assets.h - the style, the scripts and the pictures, compiled in. */
#ifndef WEB_ASSETS_H
#define WEB_ASSETS_H

#include <stddef.h>

struct web_asset {
	const char *path, *type; /* path NULL ends the list */
	const unsigned char *bytes;
	size_t n;
};

extern const struct web_asset web_assets[];

/* The address of the script, with a digest of its content in it, so that a
 * browser may keep it for ever; and that of the worker, which stands at the top
 * and is asked for anew each time. */
extern const char web_asset_script[];
#define WEB_ASSET_WORKER "/worker.js"

/* The style, which stands in each page: a file of its own would cost a phone on
 * a poor network one more way there and back before it shows anything.  Its
 * digest, as a Content-Security-Policy names it: "sha256-" and base64. */
extern const char web_style[], web_style_digest[];

#endif /* WEB_ASSETS_H */
