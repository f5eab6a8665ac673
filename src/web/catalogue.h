/* catalogue.h - the compiled translations (made by tools/embed_files.sh). */
#ifndef WEB_CATALOGUE_H
#define WEB_CATALOGUE_H

struct web_catalogue {
	const char *language;    /* NULL ends the list */
	const unsigned char *mo; /* a .mo file, least byte first */
};

extern const struct web_catalogue web_catalogues[];

#endif /* WEB_CATALOGUE_H */
