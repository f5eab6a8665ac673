// spanish.mjs - no English on a Spanish page: every page and drawn chart, every
// form sent empty and with absurd values.  An English word is one that our
// catalogue or an English page has and no Spanish text of the catalogue has.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { check, demo, ensure, same } from './harness.mjs';

const root = new URL('../..', import.meta.url).pathname;

// Columns of the demo's folder where its owner, whose language is English,
// wrote as people do.
const owners = ['code', 'name', 'why', 'note', 'remark', 'reason', 'question', 'requirement_source'];

// What the harness and this test wrote in the owner's place.
const written = ['a smooth slurry', 'strongest, and the floor carries most', 'ordinary and cheap', 'Foamwright', 'English', 'xyzzy'];

// Words of both languages, units, codes.
const both = new Set('español psi psf lbf gal degf'.split(' '));

function cells(line) {
  return [...line.matchAll(/("((?:[^"]|"")*)"|[^,]*)(?:,|$)/g)].map((m) => (m[2] ?? m[1]).replace(/""/g, '"'));
}

function ownersTexts() {
  const texts = new Set(written);
  for (const name of readdirSync(demo).filter((f) => f.endsWith('.csv'))) {
    const [head, ...rows] = readFileSync(join(demo, name), 'utf8').trimEnd().split('\n').map(cells);
    for (const row of rows) head.forEach((column, i) => { if (owners.includes(column) && /[a-z]{3}/i.test(row[i] ?? '')) texts.add(row[i]); });
  }
  return [...texts].sort((a, b) => b.length - a.length);
}

const wordsOf = (text) => text.replace(/(?<![\p{L}])\p{Lu}[\p{L}]*\p{Lu}(?![\p{L}])/gu, ' ').replace(/%[0-9$.*+-]*[a-z]+/g, ' ').replace(/"[^"]*"/g, ' ').toLowerCase().match(/\p{L}{3,}/gu) ?? [];

// The words of either side of the catalogue.  What a translation has from its
// English, such as a code, is no word of its own.
function catalogue() {
  const english = new Set(), spanish = new Set();
  for (const entry of readFileSync(join(root, 'po/es.po'), 'utf8').split('\n\n').slice(1)) {
    const side = { msgid: '', msgstr: '' };
    let now = null;
    for (const [, name, text] of entry.matchAll(/^(?:(msgid|msgstr) )?"(.*)"$/gm)) {
      now = name ?? now;
      side[now] += text.replace(/\\n/g, ' ').replace(/\\"/g, '"');
    }
    const from = new Set(wordsOf(side.msgid));
    from.forEach((w) => english.add(w));
    wordsOf(side.msgstr).filter((w) => !from.has(w)).forEach((w) => spanish.add(w));
  }
  return { english, spanish };
}

async function get(address, language, method = {}) {
  for (let i = 0; i < 60; i++) {
    const answer = await fetch(address, { headers: { 'Accept-Language': language }, ...method });
    const html = await answer.text();
    if (!html.includes('http-equiv="refresh"')) return html;
    await new Promise((r) => setTimeout(r, 500));
  }
  throw new Error(`${address} is still being computed`);
}

// What a person reads or hears of documents: text, labels, descriptions.
const textsOf = (page, documents) => page.evaluate((all) => all.map((html) => {
  const d = new DOMParser().parseFromString(html, html.startsWith('<svg') ? 'image/svg+xml' : 'text/html');
  const texts = [];
  const walk = d.createTreeWalker(d, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT);
  for (let n = walk.nextNode(); n; n = walk.nextNode()) {
    if (n.nodeType === 3) {
      if (!n.parentElement.closest('style, script, textarea')) texts.push(n.data);
    } else for (const a of n.attributes) {
      if (/^(alt|title|aria-label|placeholder|data-(waits|saved|away|outside|refused|restored|discard|stop|kept))$/.test(a.name)) texts.push(a.value);
    }
  }
  const forms = [...d.querySelectorAll('form[method=post]')].map((f) => ({ id: f.id, action: f.getAttribute('action'),
    fields: [...f.elements].filter((e) => e.name).map((e) => ({ name: e.name, value: e.value, hidden: e.type === 'hidden', kind: e.type, choice: e.tagName === 'SELECT' || e.type === 'radio' })) }));
  return { texts: [...new Set(texts.map((t) => t.replace(/\s+/g, ' ').trim()).filter(Boolean))], forms,
    pictures: [...d.querySelectorAll('img')].map((i) => i.getAttribute('src')).filter((s) => s.startsWith('/chart/') && !s.startsWith('/chart/label/')) };
}), documents);

class Finder {
  constructor() {
    Object.assign(this, catalogue(), { owners: ownersTexts() });
    ensure(this.english.size > 1000 && this.spanish.size > 1000, `${this.english.size} and ${this.spanish.size} words: the catalogue was not read`);
  }

  bare(text) {
    for (const own of this.owners) text = text.split(own).join('#');
    return text;
  }

  learn(texts) {
    for (const t of texts) for (const w of wordsOf(this.bare(t))) this.english.add(w);
  }

  english_in(text) {
    return wordsOf(this.bare(text)).filter((w) => this.english.has(w) && !this.spanish.has(w) && !both.has(w));
  }

  find(texts) {
    return texts.map((t) => [t, this.english_in(t)]).filter(([, w]) => w.length > 0).map(([t, w]) => `[${[...new Set(w)].join(' ')}] ${t.slice(0, 200)}`);
  }
}

export async function testNoEnglish(browser, home, addresses) {
  const finder = new Finder();
  const page = await browser.newPage();
  const asked = await Promise.all(addresses.map(async (a) => [await get(home + a, 'en'), await get(home + a, 'es')]));
  const read = await textsOf(page, asked.flat());
  const pictures = [...new Set(read.flatMap((r) => r.pictures))];
  const drawn = await Promise.all(pictures.map((p) => Promise.all([get(home + p, 'en'), get(home + p, 'es')])));
  const seen = await textsOf(page, drawn.flat());
  for (let i = 0; i < read.length; i += 2) finder.learn(read[i].texts);
  for (let i = 0; i < seen.length; i += 2) finder.learn(seen[i].texts);
  for (let i = 0; i < addresses.length; i++)
    await check(`no English in Spanish ${addresses[i]}`, () => same(finder.find(read[2 * i + 1].texts).join('\n'), '', 'English'));
  for (let i = 0; i < pictures.length; i++)
    await check(`no English in Spanish ${pictures[i]}`, () => same(finder.find(seen[2 * i + 1].texts).join('\n'), '', 'English'));
  await testRefusals(page, home, finder, addresses, read.filter((r, i) => i % 2 === 1));
  await page.close();
}

const absurd = { text: 'xyzzy', number: '-7 parsecs', textarea: 'xyzzy', checkbox: 'yes', file: 'xyzzy' };

async function testRefusals(page, home, finder, addresses, read) {
  const forms = new Map();
  read.forEach((r, i) => r.forms.forEach((f) => { const name = f.id.replace(/^decide-.*/, 'decide'); if (!forms.has(name)) forms.set(name, { ...f, from: addresses[i] }); }));
  for (const [name, form] of forms) {
    for (const how of ['empty', 'absurd']) {
      await check(`no English in the answer to ${name} ${how}`, async () => {
        const fresh = (await textsOf(page, [await get(home + form.from, 'es')]))[0].forms.find((f) => f.id === form.id);
        const body = new URLSearchParams();
        const named = new Set();
        for (const f of fresh?.fields ?? []) {
          if (named.has(f.name)) continue;
          named.add(f.name);
          if (f.hidden) body.append(f.name, f.value);
          else if (how === 'absurd') body.append(f.name, f.choice ? 'xyzzy' : absurd[f.kind] ?? 'xyzzy');
          else if (how === 'first') body.append(f.name, f.choice ? f.value : '1');
        }
        const html = await get(home + form.action, 'es', { method: 'POST', body, headers: { 'Accept-Language': 'es' } });
        const [{ texts }] = await textsOf(page, [html]);
        same(finder.find(texts).join('\n'), '', 'English');
      });
    }
  }
}
