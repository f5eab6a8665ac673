/* Keeps the pages one has seen, for when the laptop cannot be reached.  Browsers
 * start it only where nobody in between can change it: on the laptop itself, and
 * on a phone that trusts the book's certificate.
 *
 * The laptop is always asked first; a kept page says of when it is.  Whoever
 * comes to the sign-in, or signs out, leaves no page behind. */
var NAME = "pages", MOST = 80, LATE = 8000;

/* Old ones first: a page kept anew goes to the end. */
function keep(request, response) {
	return caches.open(NAME).then(cache =>
		cache.delete(request, {ignoreVary: true}).then(() => cache.put(request, response)).then(() =>
			cache.keys()).then(all => Promise.all(
			all.slice(0, -MOST).map(old => cache.delete(old)))));
}
/* A page is told apart by its body: the script sees that it was kept. */
function kept(request) {
	return caches.match(request, {ignoreVary: true}).then(found =>
		found || caches.match(request, {ignoreVary: true, ignoreSearch: true})).then(found => {
		if (!found || request.mode !== "navigate")
			return found;
		return found.text().then(html => new Response(
			html.replace("<body ", "<body data-kept=\"" +
				Date.parse(found.headers.get("Date")) + "\" "),
			{headers: found.headers}));
	});
}
function ask(event) {
	return fetch(event.request).then(response => {
		if (response.ok && !response.redirected)
			event.waitUntil(keep(event.request, response.clone()));
		return response;
	});
}

self.addEventListener("install", event => {
	self.skipWaiting();
	event.waitUntil(Promise.all(["/today", "/mixer", "/bench"].map(path =>
		fetch(path).then(response =>
			response.ok && !response.redirected && keep(path, response)))));
});
self.addEventListener("activate", event => {
	event.waitUntil(self.clients.claim());
});
self.addEventListener("fetch", event => {
	var request = event.request, path = new URL(request.url).pathname;
	if (/^\/(sign-|pair)/.test(path)) {
		event.waitUntil(caches.delete(NAME));
		return;
	}
	if (request.method !== "GET" || /^\/picture|\.(csv|json|crt|ics)$/.test(path) ||
		!(request.mode === "navigate" || /^(script|image)$/.test(request.destination)))
		return;
	var asked = ask(event);
	var late = new Promise(resolve => { setTimeout(resolve, LATE); });
	event.respondWith(Promise.race([asked, late]).catch(() => null).then(response =>
		response || kept(request).then(found => found || asked)));
});
