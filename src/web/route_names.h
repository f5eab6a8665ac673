/* route_names.h - every address: WEB_ROUTE(path, page, deed).  A path that ends
 * in '/' takes a tail, such as the code of a piece; web_none: no such method. */
WEB_ROUTE("/", web_today, web_none)
WEB_ROUTE("/today", web_today, web_none)
WEB_ROUTE("/due", web_due, web_none)
