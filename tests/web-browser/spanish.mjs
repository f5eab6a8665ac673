// spanish.mjs - no English on a Spanish page: every page, every drawn chart, and
// the answer to every form sent empty and with absurd values.  A word is English
// if our catalogue or an English page has it, and no translation of the catalogue
// that does not take it over from its English.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { check, demo, ensure, same } from './harness.mjs';

const root = new URL('../..', import.meta.url).pathname;

// Columns of the demo's folder where its owner, who speaks English, wrote as
// people do.
const owners = ['code', 'name', 'why', 'note', 'remark', 'reason', 'question', 'reinforcement', 'requirement_source'];

// What the tests wrote in the owner's place; names of people, programs, files.
const written = ['materials.csv', 'lots.csv', 'mixes.csv', 'trial.csv', 'rules.csv', 'batches.csv', 'specimens.csv', 'readings.csv', 'parts.csv',
  'Kruskal-Wallis', 'Dunnett', 'Tukey-Kramer', 'a smooth slurry', 'strongest, and the floor carries most', 'ordinary and cheap', 'My building', 'slurry.png', '/nowhere', demo,
  'floor: Floor layer', 'roof: Roof fill', 'floor: mezcla D', 'decisión floor D', '(regla settled', 'Unidad de water', 'Unidad de cement', 'PP fibre cracking', 'PP fibre',
  'xyzzy', 'Foamwright', 'English', 'docs/import.md', 'docs/methods', 'Bagheri', 'Samea', 'Jones', 'Ozlutas', 'Zheng', 'Statistical Quality Control Handbook',
  'brick', 'beam.csv', '01-B-1 load 1', 'amasada roof', 'parte floor', 'parte roof', 'Westergaard', 'Huang', 'Pavement Analysis and Design'];

// Codes of the shelf of materials.
const shelf = ('cement blended-cement lime fly-ash slag fine-sand limestone-flour water fibre pp-fibre glass-fibre basalt-fibre plasticiser ' +
  'accelerator synthetic-agent protein-agent glass-mesh steel-mesh').split(' ');

// Words that Spanish has too, units, and what is written the same.
const shared = new Set('byte bytes decimal idea portland material plan local factor panel usual use español lan lambda psi psf lbf kgf gal deg degc degf min mpa kpa bar'.split(' '));

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

// Of three letters or more; not of a format, in quotation marks, or a code such
// as "QR" or "ISO".
const wordsOf = (text) => text.replace(/(?<!\p{L})\p{Lu}\p{L}*\p{Lu}(?!\p{L})/gu, ' ').replace(/%[0-9$.*+-]*[a-z]+/g, ' ')
  .replace(/"[^"]*"|«[^»]*»|\b[0-9a-f]{12,}\b/g, ' ').toLowerCase().match(/\p{L}{3,}/gu) ?? [];

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

async function get(address, language, asked = {}) {
  for (let i = 0; i < 120; i++) {
    const answer = await fetch(address, { headers: { 'Accept-Language': language }, ...asked });
    const html = await answer.text();
    if (!html.includes('http-equiv="refresh"')) return html;
    await new Promise((r) => setTimeout(r, 250));
  }
  throw new Error(`${address} is still being computed`);
}

// What a person reads or hears of documents, their forms and their charts.
const readAll = (page, documents) => page.evaluate((all) => all.map((html) => {
  const d = new DOMParser().parseFromString(html, html.startsWith('<svg') ? 'image/svg+xml' : 'text/html');
  const texts = new Set();
  const add = (text) => texts.add(text.replace(/\s+/g, ' ').trim());
  const walk = d.createTreeWalker(d, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT);
  for (let n = walk.nextNode(); n; n = walk.nextNode()) {
    if (n.nodeType === Node.TEXT_NODE) {
      if (!n.parentElement.closest('style, script, textarea')) add(n.data);
    } else for (const a of n.attributes)
      if (/^(alt|title|aria-label|placeholder|data-(waits|saved|away|outside|refused|restored|discard|stop|kept))$/.test(a.name)) add(a.value);
  }
  const fieldOf = (e) => ({ name: e.name, value: e.value, kind: e.tagName === 'SELECT' ? 'select' : e.inputMode === 'decimal' ? 'number' : e.type });
  return {
    texts: [...texts].filter(Boolean),
    forms: [...d.querySelectorAll('form[method=post]')].map((f) => ({ id: f.id, action: f.getAttribute('action'), fields: [...f.elements].filter((e) => e.name).map(fieldOf) })),
    pictures: [...d.images].map((i) => i.getAttribute('src')).filter((s) => s.startsWith('/chart/') && !s.startsWith('/chart/label/')),
  };
}), documents);

class Finder {
  constructor() {
    Object.assign(this, catalogue());
    // A code such as "foam" is the owner's only where it stands alone.
    const isCode = (text) => /^[a-z]+$/.test(text) && this.english.has(text) && !written.includes(text);
    this.codes = new Set(ownersTexts().filter(isCode).concat('blending', shelf));
    this.owners = ownersTexts().filter((text) => !isCode(text));
    ensure(this.english.size > 1000 && this.spanish.size > 1000, `${this.english.size} and ${this.spanish.size} words: the catalogue was not read`);
    ensure(this.find(['Se pesó la espuma', 'Weigh the foam', 'La foam se pesó']).length === 2, 'the finder finds no English');
  }

  words(text) {
    for (const code of shelf) if (text.startsWith(`${code}: `)) text = text.slice(code.length);
    for (const own of this.owners) text = text.split(own).join('#');
    return wordsOf(text);
  }

  learn(texts) {
    for (const text of texts) for (const word of this.words(text)) this.english.add(word);
  }

  find(texts) {
    const isEnglish = (word) => this.english.has(word) && !this.spanish.has(word) && !shared.has(word);
    return texts.filter((text) => !this.codes.has(text)).map((text) => [text, this.words(text).filter(isEnglish)])
      .filter(([, words]) => words.length > 0).map(([text, words]) => `[${words.join(' ')}] ${text.slice(0, 200)}`);
  }
}

// What is sent for a kind of field; what is not here is left as it comes.
const absurd = { text: 'xyzzy', textarea: 'xyzzy', checkbox: 'yes', radio: 'xyzzy', select: 'xyzzy' };

async function answerTo(home, form, fields, isAbsurd) {
  const body = new URLSearchParams();
  for (const [i, field] of fields.entries()) {
    if (field.kind === 'hidden') body.set(field.name, field.value);
    else if (isAbsurd && field.kind === 'number') body.set(field.name, ['-7 parsecs', '7 kg/m2', '-7'][i % 3]);
    else if (isAbsurd && absurd[field.kind]) body.set(field.name, absurd[field.kind]);
  }
  return get(home + form.action, 'es', { method: 'POST', body, headers: { 'Accept-Language': 'es' } });
}

// home: of a book of its own, for some of it is recorded after all.
async function testRefusals(page, home, finder, addresses, read) {
  const forms = new Map();
  read.forEach(({ forms: found }, i) => {
    for (const form of found) {
      const name = form.id.replace(/^decide-.*/, 'decide'); // one of each kind
      if (!forms.has(name)) forms.set(name, { ...form, from: addresses[i] });
    }
  });
  ensure(forms.size > 25, `only ${forms.size} forms found`);
  for (const [name, form] of forms) {
    for (const how of ['empty', 'absurd']) {
      await check(`no English in the answer to ${name} ${how}`, async () => {
        const [fresh] = await readAll(page, [await get(home + form.from, 'es')]);
        const own = fresh.forms.find((f) => f.id === form.id);
        ensure(own, `the form is no longer at ${form.from}`);
        const [answer] = await readAll(page, [await answerTo(home, form, own.fields, how === 'absurd')]);
        same(finder.find(answer.texts).join('\n'), '', 'English');
      });
    }
  }
}

export async function testNoEnglish(browser, home, addresses, serveCopy) {
  const finder = new Finder();
  const page = await browser.newPage();
  const inBoth = async (list) => readAll(page, (await Promise.all(list.flatMap((a) => [get(home + a, 'en'), get(home + a, 'es')]))));
  const read = await inBoth(addresses);
  const pictures = [...new Set(read.flatMap((r) => r.pictures))];
  const seen = [...read, ...await inBoth(pictures)];
  for (let i = 0; i < seen.length; i += 2) finder.learn(seen[i].texts);
  for (const [i, address] of [...addresses, ...pictures].entries())
    await check(`no English in Spanish ${address}`, () => same(finder.find(seen[2 * i + 1].texts).join('\n'), '', 'English'));
  const copy = await serveCopy();
  try {
    await testRefusals(page, copy.address, finder, addresses, read.filter((r, i) => i % 2 === 1));
  } finally {
    await copy.stop();
  }
  await page.close();
}
