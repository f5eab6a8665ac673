/* route_names.h - every address: WEB_ROUTE(path, page, deed).  A path that ends
 * in '/' takes a tail, such as the code of a piece; web_none: no such method. */
WEB_ROUTE("/", web_today, web_none)
WEB_ROUTE("/today", web_today, web_none)
WEB_ROUTE("/due", web_due, web_none)
WEB_ROUTE("/mixer", web_mixer, web_none)
WEB_ROUTE("/batch/", web_batch, web_batch_post)
WEB_ROUTE("/batch", web_mixer, web_batch_new)
WEB_ROUTE("/foam/", web_foam, web_foam_post)
WEB_ROUTE("/gear", web_gear, web_gear_post)
WEB_ROUTE("/bench", web_bench, web_bench_post)
WEB_ROUTE("/piece/", web_piece, web_piece_post)
WEB_ROUTE("/bend/", web_bend, web_bend_post)
