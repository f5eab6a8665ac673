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
	var kept = document.body.dataset.kept; /* by the worker, then */
	var unreachable = !!kept, outside = false;
	var TIME_LIMIT = 15000, AGAIN = 5000;

	try {
		store = window.localStorage;
		store.setItem("probe", "1");
		store.removeItem("probe");
	} catch (e) {
		store = null;
	}

	function text(name) {
		return line ? line.dataset[name] : "";
	}
	function each(list, deed) {
		Array.from(list).forEach(deed);
	}
	function parse(html) {
		return new DOMParser().parseFromString(html, "text/html");
	}
	function keys(prefix) {
		return Object.keys(store || {}).filter(key => key.startsWith(prefix)).sort();
	}
	function read(key) {
		try {
			return JSON.parse(store.getItem(key));
		} catch (e) {
			return null;
		}
	}
	function clock(ms) {
		return new Date(ms).toTimeString().slice(0, 5);
	}
	function freshKey() {
		var bytes = window.crypto.getRandomValues(new Uint8Array(16));
		return Array.from(bytes, b => b.toString(16).padStart(2, "0")).join("");
	}

	function link(words, address) {
		var a = document.createElement("a");
		a.textContent = words;
		a.href = address;
		line.append(" ", a);
	}
	/* The line that always says what is saved and what waits. */
	function show() {
		if (!line || !store)
			return;
		var n = keys("out:").length, bad = keys("bad:");
		var saved = store.getItem("saved");
		line.className = n + bad.length > 0 || kept ? "outbox waits" : "outbox";
		line.textContent = (n > 0 ? text("waits") + " " + n + ". " : "") +
			(n > 0 || kept ? unreachable && !outside ? text("away") + " " : ""
				: bad.length > 0 ? "" : saved ? text("saved") + " " + clock(+saved) : "");
		if (kept)
			link(text("kept") + " " + new Date(+kept).toLocaleString(document.documentElement.lang),
				location.href);
		if (n > 0 && outside)
			link(text("outside"), "/sign-in");
		if (bad.length > 0)
			link(text("refused") + " " + bad.length,
				read(bad[0]).page);
	}

	/* --- The outbox. --- */
	function done(key, response) {
		store.removeItem(key);
		store.setItem("saved", String(Date.now()));
		unreachable = outside = false;
		return response;
	}
	/* What the laptop did not take, and nobody has seen that: its form brings
	 * it back with the reason. */
	function refused(entry, key, html) {
		var page = parse(html);
		var why = page.querySelector(".faults") || page.querySelector("main");
		entry.why = why ? why.textContent.replace(/\s+/g, " ").trim().slice(0, 400) : "";
		store.setItem("bad:" + key.slice(4), JSON.stringify(entry));
		done(key);
	}
	/* The anti-forgery mark of the page anew: the server may have begun anew. */
	function remark(entry) {
		return fetch(entry.page, {cache: "no-store"}).then(response => {
			outside = /\/sign-in$/.test(response.url);
			return response.text();
		}).then(html => {
			var fresh = parse(html).querySelector("input[name=token]");
			if (outside || !fresh)
				throw new Error("not now");
			each(document.querySelectorAll("input[name=token]"),
				input => { input.value = fresh.value; });
			return fresh.value;
		});
	}
	function send(key, token) {
		var entry = read(key);
		var stop = new AbortController();
		var timer = setTimeout(() => stop.abort(), TIME_LIMIT);
		if (!entry) {
			store.removeItem(key);
			return Promise.resolve(null);
		}
		var mark = document.querySelector("input[name=token]");
		var now = token || (mark && mark.value);
		var pairs = entry.pairs.map(p => p[0] === "token" && now ? ["token", now] : p);
		return fetch(entry.action, {
			method: "POST", body: new URLSearchParams(pairs), signal: stop.signal
		}).finally(() => { clearTimeout(timer); }).then(response => {
			if (response.ok || [400, 404, 409, 422].includes(response.status))
				return response;
			if (response.status === 403 && !token)
				return remark(entry).then(fresh => send(key, fresh));
			throw new Error("not now");
		});
	}
	function flush() {
		if (sending || !store || keys("out:").length === 0)
			return Promise.resolve();
		sending = true;
		var key = keys("out:")[0];
		return send(key).then(response => {
			if (!response || response.ok)
				return response && done(key, response);
			return response.text().then(html => { refused(read(key), key, html); });
		}).then(() => {
			sending = false;
			show();
			return flush();
		}).catch(() => {
			sending = false;
			unreachable = true;
			show();
		});
	}
	function pairsOf(form) {
		return Array.from(new FormData(form)).filter(p => typeof p[1] === "string");
	}
	function typedIn(form) {
		return pairsOf(form).filter(p => !/^(token|key|form)$/.test(p[0]));
	}
	function hasFile(form) {
		return Array.from(form.elements).some(i => i.files && i.files.length > 0);
	}
	function record(form, event) {
		var key = form.elements.key, pressed = event.submitter;
		if (pressed && pressed.name === "try" && form.work) {
			event.preventDefault();
			return form.work();
		}
		if (!store || hasFile(form))
			return; /* the browser sends it itself */
		event.preventDefault();
		var pairs = pairsOf(form);
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
		send(name).then(response => {
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
			return response.text().then(html => {
				var page = parse(html);
				if (response.ok || page.getElementById(form.id))
					forget(form); /* else Back brings it back */
				document.title = page.title;
				document.querySelector("main").replaceWith(page.querySelector("main"));
				start();
				var faults = document.querySelector(".faults");
				if (faults)
					faults.focus();
			});
		}).catch(() => {
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
			pairs: typedIn(form)
		}));
	}
	function fill(form, pairs) {
		pairs.forEach(p => {
			each(form.elements, input => {
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
		each(document.querySelectorAll(".fold"), d => {
			d.open |= d.contains(form) | form.contains(d);
		});
		button.type = "button";
		button.className = "plain";
		button.textContent = text("discard");
		button.addEventListener("click", () => {
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
		var bad = keys("bad:").filter(key => {
			var entry = read(key);
			return entry.form === form.id && entry.page.split("?")[0] === here;
		})[0];
		var draft = bad ? read(bad) : read(draftName(form));
		if (!draft)
			return;
		fill(form, draft.pairs);
		if (bad) {
			form.dataset.refused = bad;
			note(form, "error", text("refused") + " " + draft.why,
				() => { store.removeItem(bad); });
		} else {
			note(form, "hint", text("restored") + " " +
				clock(draft.at), () => { forget(form); });
		}
	}

	/* --- What is typed, worked out by the laptop meanwhile. --- */
	function live(box) {
		var form = box.closest("form"), timer, last;
		form.work = () => {
			var asked = last = new URLSearchParams(typedIn(form)).toString();
			return fetch(box.dataset.live + "?" + asked).then(response => response.text()).then(html => {
				var main = parse(html).querySelector("main");
				if (asked !== last)
					return; /* more was typed meanwhile */
				main.querySelector("h1").remove();
				box.replaceChildren(...main.children);
			}).catch(() => {});
		};
		form.addEventListener("input", () => {
			clearTimeout(timer);
			timer = setTimeout(form.work, 400);
		});
	}

	/* --- At the mixer: a stopwatch, and what is weighed ticked off. --- */
	function watch(box) {
		var button = box.querySelector("button"), out = box.querySelector("output");
		var field = box.parentNode, name = "watch:" + location.pathname;
		var begin = button.textContent, since = store && +store.getItem(name);
		function tick() {
			button.textContent = since ? button.dataset.stop : begin;
			if (!since)
				return;
			out.textContent = Math.round((Date.now() - since) / 1000) + " s";
			setTimeout(tick, 250);
		}
		button.onclick = () => {
			if (since) {
				var input = field.querySelector("input");
				input.value = parseInt(out.textContent, 10);
				field.querySelector("select").value = "s";
				input.dispatchEvent(new Event("input", {bubbles: true}));
			}
			since = since ? 0 : Date.now();
			if (store)
				store.setItem(name, since);
			tick();
		};
		box.hidden = false;
		tick();
	}
	function ticks(list) {
		var name = "tick:" + location.pathname, on = store && read(name) || {};
		var boxes = list.querySelectorAll("input"), said = list.querySelector("[data-kept]");
		function tell() {
			var n = list.querySelectorAll(":checked").length;
			said.textContent = store ? said.dataset.kept + " " + n + "/" + boxes.length : "";
		}
		each(boxes, box => {
			box.checked = on[box.id] === box.value;
			box.onchange = () => {
				on[box.id] = box.checked && box.value;
				if (store)
					store.setItem(name, JSON.stringify(on));
				tell();
			};
		});
		tell();
	}

	function start() {
		each(document.querySelectorAll("[data-live]"), live);
		each(document.querySelectorAll(".watch"), watch);
		each(document.querySelectorAll(".ticks"), ticks);
		each(document.querySelectorAll("form.records"), form => {
			if (/^\/(sign-|pair)/.test(form.getAttribute("action")))
				return; /* no code is kept on the phone */
			if (kept && form.elements.key) /* this one may have been used */
				form.elements.key.value = freshKey();
			restore(form);
			form.addEventListener("input", () => { saveDraft(form); });
			form.addEventListener("submit", event => { record(form, event); });
		});
	}
	window.addEventListener("online", flush);
	window.addEventListener("focus", flush);
	document.addEventListener("visibilitychange", flush);
	window.addEventListener("beforeunload", event => {
		if (store && keys("out:").length > 0 && unreachable)
			event.preventDefault();
	});
	setInterval(flush, AGAIN);
	if (navigator.serviceWorker && !kept)
		navigator.serviceWorker.register("/worker.js").catch(() => {});
	start();
	show();
	flush();
}());
