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
	var unreachable = false;
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

	/* The line that always says what is saved and what waits. */
	function show() {
		if (!line || !store)
			return;
		var n = keys("out:").length;
		var saved = store.getItem("saved");
		line.className = n > 0 ? "outbox waits" : "outbox";
		line.textContent = n > 0
			? text("waits", "Waiting to be saved:") + " " + n + ". " +
				(unreachable ? text("away", "The laptop cannot be reached; keep going.") : "")
			: saved ? text("saved", "All saved") + " " + clock(+saved) : "";
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
		unreachable = false;
		return response;
	}
	function send(key) {
		var entry = read(key);
		var stop = new AbortController();
		var timer = setTimeout(function () { stop.abort(); }, TIME_LIMIT);
		if (!entry) {
			store.removeItem(key);
			return Promise.resolve(null);
		}
		/* The anti-forgery mark of this page, in case the server began anew. */
		var mark = document.querySelector("input[name=token]");
		var pairs = entry.pairs.map(function (p) {
			return p[0] === "token" && mark ? ["token", mark.value] : p;
		});
		return fetch(entry.action, {
			method: "POST", body: encode(pairs), signal: stop.signal,
			credentials: "same-origin",
			headers: {"Content-Type": "application/x-www-form-urlencoded"}
		}).then(function (response) {
			clearTimeout(timer);
			if (response.ok || response.status === 409 || response.status === 422 ||
				response.status === 400 || response.status === 404)
				return done(key, response);
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
			sending = false;
			show();
			if (response && read("form:" + key) && !response.ok)
				return;
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
			action: form.getAttribute("action"), pairs: pairs, at: Date.now()
		}));
		show();
		if (keys("out:")[0] !== name) { /* others wait before it */
			keep(form);
			flush();
			return;
		}
		sending = true;
		send(name).then(function (response) {
			sending = false;
			forget(form);
			show();
			if (response.redirected) {
				if (location.href === response.url)
					location.reload();
				else
					location.assign(response.url);
				return;
			}
			return response.text().then(function (html) {
				var page = new DOMParser().parseFromString(html, "text/html");
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
	function restore(form) {
		var draft = store && read(draftName(form));
		if (!draft || form.querySelector("[aria-invalid]"))
			return;
		draft.pairs.forEach(function (p) {
			Array.prototype.forEach.call(form.elements, function (input) {
				if (input.name !== p[0] || input.type === "hidden")
					return;
				if (input.type === "radio" || input.type === "checkbox")
					input.checked = input.value === p[1];
				else if (input.type !== "file")
					input.value = p[1];
			});
		});
		var note = document.createElement("p");
		var drop = document.createElement("button");
		note.className = "hint";
		note.textContent = text("restored", "Brought back what was typed at") + " " +
			clock(draft.at) + " ";
		drop.type = "button";
		drop.className = "plain";
		drop.textContent = text("discard", "Throw it away");
		drop.addEventListener("click", function () {
			forget(form);
			form.reset();
			note.remove();
		});
		note.appendChild(drop);
		form.insertBefore(note, form.firstChild);
	}

	/* --- A stopwatch that fills a field. --- */
	function stopwatch(box) {
		var out = box.querySelector("output"), began = 0, timer = 0;
		var field = document.getElementById(box.dataset.fills);
		var unit = field && document.querySelector("select[name='" + field.name + "_unit']");
		box.hidden = false;
		box.querySelector("button").addEventListener("click", function () {
			if (timer) {
				clearInterval(timer);
				timer = 0;
				if (field) {
					var s = Math.round((Date.now() - began) / 1000);
					field.value = unit && unit.value === "min" ? (s / 60).toFixed(1) : String(s) + (unit ? "" : " s");
					field.dispatchEvent(new Event("input", {bubbles: true}));
				}
				return;
			}
			began = Date.now();
			timer = setInterval(function () {
				var s = Math.floor((Date.now() - began) / 1000);
				out.textContent = Math.floor(s / 60) + ":" + ("0" + s % 60).slice(-2);
			}, 250);
		});
	}

	function start() {
		Array.prototype.forEach.call(document.querySelectorAll("form.records"), function (form) {
			restore(form);
			form.addEventListener("input", function () { saveDraft(form); });
			form.addEventListener("submit", function (event) { record(form, event); });
		});
		Array.prototype.forEach.call(document.querySelectorAll(".watch"), stopwatch);
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
