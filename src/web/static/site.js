/* Makes pages better where scripts run; every page works without.
 *
 * Entries go into an outbox in this browser's own storage before they are
 * sent, and leave it only when the laptop has answered. Each carries the key
 * its form was given, so that one sent twice is recorded once. What is typed is
 * kept at each keystroke. */
(function () {
	"use strict";
	var line = document.getElementById("outbox");
	var store;
	var sending = false;
	var unreachable = false, outside = false;
	var TIME_LIMIT = 15000, AGAIN = 5000;

	try {
		store = window.localStorage;
		store.setItem("probe", "1");
		store.removeItem("probe");
	} catch (e) {
		store = null;
	}

	function text(name, fallback) {
		return (line && line.dataset[name]) || fallback;
	}
	function keys(prefix) {
		var found = [];
		for (var i = 0; store && i < store.length; i++)
			if (store.key(i).indexOf(prefix) === 0)
				found.push(store.key(i));
		return found.sort();
	}
	function read(key) {
		try {
			return JSON.parse(store.getItem(key));
		} catch (e) {
			return null;
		}
	}
	function clock(ms) {
		var d = new Date(ms);
		return ("0" + d.getHours()).slice(-2) + ":" + ("0" + d.getMinutes()).slice(-2);
	}
	function freshKey() {
		var bytes = new Uint8Array(16), hex = "";
		window.crypto.getRandomValues(bytes);
		for (var i = 0; i < 16; i++)
			hex += ("0" + bytes[i].toString(16)).slice(-2);
		return hex;
	}

	function link(words, address) {
		var a = document.createElement("a");
		a.textContent = words;
		a.href = address;
		line.appendChild(document.createTextNode(" "));
		line.appendChild(a);
	}
	/* The line that always says what is saved and what waits. */
	function show() {
		if (!line || !store)
			return;
		var n = keys("out:").length, bad = keys("bad:");
		var saved = store.getItem("saved");
		line.className = n + bad.length > 0 ? "outbox waits" : "outbox";
		line.textContent = n > 0
			? text("waits", "Waiting to be saved:") + " " + n + ". " +
				(unreachable && !outside ? text("away", "The laptop cannot be reached; keep going.") : "")
			: bad.length > 0 ? "" : saved ? text("saved", "All saved") + " " + clock(+saved) : "";
		if (n > 0 && outside)
			link(text("outside", "Sign in to send it."), "/sign-in");
		if (bad.length > 0)
			link(text("refused", "Not taken, please look again:") + " " + bad.length,
				read(bad[0]).page);
	}

	/* --- The outbox. --- */
	function encode(pairs) {
		return pairs.map(function (p) {
			return encodeURIComponent(p[0]) + "=" + encodeURIComponent(p[1]);
		}).join("&");
	}
	function done(key, response) {
		store.removeItem(key);
		store.setItem("saved", String(Date.now()));
		unreachable = outside = false;
		return response;
	}
	/* What the laptop did not take, and nobody has seen that: its form brings
	 * it back with the reason. */
	function refused(entry, key, html) {
		var page = new DOMParser().parseFromString(html, "text/html");
		var why = page.querySelector(".faults") || page.querySelector("main");
		entry.why = why ? why.textContent.replace(/\s+/g, " ").trim().slice(0, 400) : "";
		store.setItem("bad:" + key.slice(4), JSON.stringify(entry));
		done(key);
	}
	/* The anti-forgery mark of the page anew: the server may have begun anew. */
	function remark(entry) {
		return fetch(entry.page, {credentials: "same-origin", cache: "no-store"}).then(function (response) {
			outside = /\/sign-in$/.test(response.url);
			return response.text();
		}).then(function (html) {
			var fresh = new DOMParser().parseFromString(html, "text/html").querySelector("input[name=token]");
			if (outside || !fresh)
				throw new Error("not now");
			Array.prototype.forEach.call(document.querySelectorAll("input[name=token]"),
				function (input) { input.value = fresh.value; });
			return fresh.value;
		});
	}
	function send(key, token) {
		var entry = read(key);
		var stop = new AbortController();
		var timer = setTimeout(function () { stop.abort(); }, TIME_LIMIT);
		if (!entry) {
			store.removeItem(key);
			return Promise.resolve(null);
		}
		var mark = document.querySelector("input[name=token]");
		var now = token || (mark && mark.value);
		var pairs = entry.pairs.map(function (p) {
			return p[0] === "token" && now ? ["token", now] : p;
		});
		return fetch(entry.action, {
			method: "POST", body: encode(pairs), signal: stop.signal,
			credentials: "same-origin",
			headers: {"Content-Type": "application/x-www-form-urlencoded"}
		}).then(function (response) {
			clearTimeout(timer);
			if (response.ok || response.status === 409 || response.status === 422 ||
				response.status === 400 || response.status === 404)
				return response;
			if (response.status === 403 && !token)
				return remark(entry).then(function (fresh) { return send(key, fresh); });
			throw new Error("not now");
		}, function (failure) {
			clearTimeout(timer);
			throw failure;
		});
	}
	function flush() {
		if (sending || !store || keys("out:").length === 0)
			return Promise.resolve();
		sending = true;
		var key = keys("out:")[0];
		return send(key).then(function (response) {
			if (!response || response.ok)
				return response && done(key, response);
			return response.text().then(function (html) { refused(read(key), key, html); });
		}).then(function () {
			sending = false;
			show();
			return flush();
		}).catch(function () {
			sending = false;
			unreachable = true;
			show();
		});
	}
	function pairsOf(form) {
		var pairs = [];
		new FormData(form).forEach(function (value, name) {
			if (typeof value === "string")
				pairs.push([name, value]);
		});
		return pairs;
	}
	function hasFile(form) {
		return Array.prototype.some.call(form.querySelectorAll("input[type=file]"),
			function (i) { return i.files.length > 0; });
	}
	function record(form, event) {
		var key = form.elements.key;
		if (!store || hasFile(form))
			return; /* the browser sends it itself */
		event.preventDefault();
		var pairs = pairsOf(form);
		var pressed = event.submitter;
		if (pressed && pressed.name)
			pairs.push([pressed.name, pressed.value]);
		var name = "out:" + ("000000000000000" + Date.now()).slice(-15) + ":" + key.value;
		store.setItem(name, JSON.stringify({
			action: form.getAttribute("action"), pairs: pairs, at: Date.now(),
			page: location.pathname + location.search, form: form.id
		}));
		if (form.dataset.refused)
			store.removeItem(form.dataset.refused);
		show();
		if (keys("out:")[0] !== name) { /* others wait before it */
			keep(form);
			flush();
			return;
		}
		sending = true;
		send(name).then(function (response) {
			sending = false;
			if (!response) /* sent from another window meanwhile */
				return location.reload();
			done(name, response);
			show();
			if (response.redirected) {
				forget(form);
				if (location.href === response.url)
					location.reload();
				else
					location.assign(response.url);
				return;
			}
			return response.text().then(function (html) {
				var page = new DOMParser().parseFromString(html, "text/html");
				if (response.ok || page.getElementById(form.id))
					forget(form); /* else Back brings it back */
				document.title = page.title;
				document.querySelector("main").replaceWith(page.querySelector("main"));
				start();
				var faults = document.querySelector(".faults");
				if (faults)
					faults.focus();
			});
		}).catch(function () {
			sending = false;
			unreachable = true;
			keep(form);
			show();
		});
	}
	/* The entry waits; the form is ready for the next one, under a new key. */
	function keep(form) {
		forget(form);
		form.elements.key.value = freshKey();
		form.reset();
		if (line)
			line.focus();
	}

	/* --- What is typed is kept. --- */
	function draftName(form) {
		return "draft:" + location.pathname + ":" + form.id;
	}
	function forget(form) {
		if (store)
			store.removeItem(draftName(form));
	}
	function saveDraft(form) {
		if (!store)
			return;
		store.setItem(draftName(form), JSON.stringify({
			at: Date.now(), key: form.elements.key.value,
			pairs: pairsOf(form).filter(function (p) {
				return p[0] !== "token" && p[0] !== "key" && p[0] !== "form";
			})
		}));
	}
	function fill(form, pairs) {
		pairs.forEach(function (p) {
			Array.prototype.forEach.call(form.elements, function (input) {
				if (input.name !== p[0] || input.type === "hidden")
					return;
				if (input.type === "radio" || input.type === "checkbox")
					input.checked = input.value === p[1];
				else if (input.type !== "file" && input.type !== "submit")
					input.value = p[1];
			});
		});
	}
	function note(form, kind, words, drop) {
		var p = document.createElement("p"), button = document.createElement("button");
		p.className = kind;
		p.textContent = words + " ";
		button.type = "button";
		button.className = "plain";
		button.textContent = text("discard", "Throw it away");
		button.addEventListener("click", function () {
			drop();
			form.reset();
			p.remove();
			show();
		});
		p.appendChild(button);
		form.insertBefore(p, form.firstChild);
	}
	function restore(form) {
		if (!store || form.querySelector("[aria-invalid]"))
			return;
		var here = location.pathname;
		var bad = keys("bad:").filter(function (key) {
			var entry = read(key);
			return entry.form === form.id && entry.page.split("?")[0] === here;
		})[0];
		var draft = bad ? read(bad) : read(draftName(form));
		if (!draft)
			return;
		fill(form, draft.pairs);
		if (bad) {
			form.dataset.refused = bad;
			note(form, "error", text("refused", "Not taken, please look again:") + " " + draft.why,
				function () { store.removeItem(bad); });
		} else {
			note(form, "hint", text("restored", "Brought back what was typed at") + " " +
				clock(draft.at), function () { forget(form); });
		}
	}

	function start() {
		Array.prototype.forEach.call(document.querySelectorAll("form.records"), function (form) {
			if (/^\/(sign-|pair)/.test(form.getAttribute("action")))
				return; /* no code is kept on the phone */
			restore(form);
			form.addEventListener("input", function () { saveDraft(form); });
			form.addEventListener("submit", function (event) { record(form, event); });
		});
	}
	window.addEventListener("online", flush);
	window.addEventListener("focus", flush);
	document.addEventListener("visibilitychange", flush);
	window.addEventListener("beforeunload", function (event) {
		if (store && keys("out:").length > 0 && unreachable)
			event.preventDefault();
	});
	setInterval(flush, AGAIN);
	start();
	show();
	flush();
}());
