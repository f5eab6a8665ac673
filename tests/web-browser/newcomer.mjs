// newcomer.mjs - an empty book and nobody to ask: no page is a dead end, what is
// typed is read as people write it, a mistake is undone, and the words are plain.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { check, close, emptyBook, ensure, openPage, PHONE, same, serve, unfold } from './harness.mjs';
import { addresses } from './pages.mjs';

const sections = ['/today', '/materials', '/mixes', '/trial', '/mixer', '/bench', '/results', '/compare', '/choose',
  '/building', '/pour', '/watch', '/record', '/words', '/gear', '/due', '/next', '/plan', '/duty', '/screen', '/design'];

// Of an empty book: each page can be left, and what lacks is a link away.
async function noDeadEnds(home) {
  for (const address of sections) {
    await check(`an empty book has a way on from ${address}`, async () => {
      const answer = await fetch(home + address);
      const html = await answer.text();
      const main = html.slice(html.indexOf('<main'), html.indexOf('</main>'));
      ensure([200, 422].includes(answer.status), `status ${answer.status}`);
      ensure(html.includes('<nav'), 'no sections');
      ensure(!/\.csv and import|PART=|foamwright [a-z]/.test(main), 'it speaks of files or commands');
      if (answer.status === 200) return;
      const ways = [...main.matchAll(/class="go" href="([^"]+)"/g)].map(([, way]) => way).filter((way) => way !== '/today');
      ensure(ways.length > 0, 'a page that is not there yet leads nowhere');
      for (const way of ways) same((await fetch(home + way)).status, 200, way);
    });
  }
}

// With materials and nothing to make foam with, the gear comes before the mixes.
async function gearNext(page, home) {
  await check('after the materials Today leads to the foam generator', async () => {
    await page.goto(`${home}/today`);
    await page.locator('main a.go').first().tap();
    await page.waitForURL(/gear/);
    await send(page, 'generator', { code: 'G1', metering: 'seconds', target: '70', 'scale-step': '5', rate: '25', 'vessel-empty': '0.612', 'vessel-full': '10.9', dilution: '40' });
    same(await page.locator('.faults').count(), 0, 'refused');
    await page.goto(`${home}/today`);
    await page.locator('main a.go').first().tap();
    await page.waitForURL(/mixes/);
  });
}

async function send(page, form, values) {
  const root = page.locator(`form#${form}`);
  for (const [name, value] of Object.entries(values)) {
    const field = root.locator(`[name="${name}"]`);
    await unfold(field.first(), true);
    if (await field.first().evaluate((e) => e.tagName === 'SELECT')) await field.selectOption(value);
    else if (await field.first().getAttribute('type') === 'radio') await root.locator(`[name="${name}"][value="${value}"]`).check();
    else await field.fill(value);
  }
  await root.locator('.send button').tap();
  await page.locator('.faults, .done').first().waitFor({ timeout: 15000 });
}

const density = async (home) => (await (await fetch(`${home}/materials.json`)).json()).tables.materials?.[0]?.particle;

async function asPeopleWrite(page, home) {
  await check('a decimal comma and a unit typed with the number are read', async () => {
    await page.goto(`${home}/materials`);
    await send(page, 'material', { code: 'cement', role: 'cement', 'particle-density': '3,15 g/cm3' });
    same(await density(home), 3150, 'kg/m3');
  });
  await check('what has two readings is asked, and what was typed stays', async () => {
    await page.goto(`${home}/materials`);
    await send(page, 'material', { code: 'cement', 'particle-density': '3,150' });
    const field = page.locator('[name="particle-density"]');
    same(await field.getAttribute('aria-invalid'), 'true', 'marked');
    same(await field.inputValue(), '3,150', 'kept');
    const said = await page.locator('#material-particle-density-error').innerText();
    ensure(said.includes('3150') && said.includes('3.15'), said);
    same(await density(home), 3150, 'unchanged');
  });
  await check('a volume in the place of a mass is refused, and both are named', async () => {
    await page.goto(`${home}/materials`);
    await send(page, 'material', { code: 'cement', package: '25 L' });
    const said = await page.locator('#material-package-error').innerText();
    ensure(/volume/.test(said) && /mass/.test(said), said);
    ensure((await page.title()).startsWith('Not yet'), await page.title());
  });
}

async function undoes(page, home) {
  await check('what was just recorded is undone by the button with that word', async () => {
    await page.goto(`${home}/materials`);
    await send(page, 'material', { code: 'cement', 'particle-density': '3100' });
    same(await density(home), 3100, 'recorded');
    await page.locator('.done a', { hasText: 'Undo' }).tap();
    await page.waitForURL(/undo/);
    await send(page, 'undo', {});
    same(await density(home), 3150, 'as before');
  });
}

async function stepByStep(page, home) {
  await check('Today names the next step and leads there', async () => {
    await page.goto(`${home}/today`);
    const main = page.locator('main');
    ensure((await main.innerText()).includes('What comes next'), 'no next step');
    await main.locator('a.go').first().tap();
    await page.waitForURL(/materials/);
  });
}

// Words that a builder should not meet (they are statisticians' or makers');
// a gauge's unit in a list to choose from is its maker's.
const avoided = /\b(p-value|significan\w*|hypothes\w*|standard deviation|credible|confidence interval|censored|covariate|confounded|replicate|randomis\w*|randomiz\w*|fractile|outlier|regression|rheolog\w*|heteroscedastic|posterior|prior|likelihood|ANOVA|sigma|equivalent age|MPa)\b/i;

// Read as text, of every page of the demo book.
export async function testPlainWords(home) {
  for (const address of addresses) {
    await check(`plain words on ${address}`, async () => {
      let html = await (await fetch(home + address)).text();
      for (let i = 0; i < 60 && html.includes('http-equiv="refresh"'); i++) {
        await new Promise((done) => { setTimeout(done, 500); });
        html = await (await fetch(home + address)).text();
      }
      const main = html.slice(html.indexOf('<main'), html.indexOf('</main>'));
      const text = main.replace(/<option[^]*?<\/option>/g, '').replace(/<[^>]+>/g, ' ');
      const found = address === '/words' ? null : text.match(avoided); // there: what others say
      ensure(!found, `"${found?.[0]}"`);
      ensure(!/<input[^>]+type="number"/.test(html), 'a number field that loses decimals');
      ensure(/decide what may be built/.test(html), 'it does not say what it cannot do');
      const charts = (main.match(/class="chart"><a href="\/chart\/(?!label)/g) || []).length;
      ensure(charts === 0 || main.includes('<table'), 'a chart without its table');
    });
  }
}

// Of the files: nothing is dragged, swiped, held or hovered for.
export async function testTapsOnly(root) {
  await check('the own script waits for taps and keys alone', async () => {
    const script = readFileSync(join(root, 'src/web/static/site.js'), 'utf8');
    const heard = new Set([...script.matchAll(/addEventListener\("(\w+)"/g)].map(([, name]) => name));
    const known = ['click', 'input', 'change', 'submit', 'online', 'focus', 'visibilitychange', 'beforeunload', 'pageshow', 'message', 'load'];
    same([...heard].filter((name) => !known.includes(name)).join(' '), '', 'other events');
  });
  await check('the style hides nothing until a pointer hovers', async () => {
    ensure(!readFileSync(join(root, 'src/web/static/site.css'), 'utf8').includes(':hover'), ':hover');
  });
  await check('numbers bring the number keypad', async () => {
    const folder = join(root, 'src/web/page');
    const pages = readdirSync(folder).map((name) => readFileSync(join(folder, name), 'utf8')).join('');
    ensure(!pages.includes('type="number"'), 'type=number');
    ensure(/\{\{\?number\}\}[^]*?inputmode="decimal"/.test(pages), 'inputmode');
  });
}

// docs/pages-acceptance.md names tests that there are.
export async function testAcceptance(root) {
  await check('every test that docs/pages-acceptance.md names is there', async () => {
    const tests = readdirSync(join(root, 'tests'), { recursive: true }).map(String)
      .filter((name) => /\.(c|mjs)$/.test(name) && !name.includes('node_modules'))
      .map((name) => readFileSync(join(root, 'tests', name), 'utf8')).join('\n');
    const rows = readFileSync(join(root, 'docs/pages-acceptance.md'), 'utf8').split('\n').filter((row) => /^\| \d/.test(row));
    const names = rows.flatMap((row) => [...(row.split('|')[4] || '').matchAll(/`([^`]+)`/g)].map(([, name]) => name)).filter((name) => !name.startsWith('/'));
    const parts = (name) => name.replace(/^200 /, '').replace(/^phone light /, '').split(/ADDRESS|FORM/).filter((part) => part.trim() !== '');
    const missing = names.filter((name) => !parts(name).every((part) => tests.includes(part.replace(/'/g, "\\'")) || tests.includes(part)));
    ensure(rows.length > 30 && names.length > 30, `${names.length} names in ${rows.length} rows`);
    same(missing.join('; '), '', 'no such test');
  });
}

// The figures are the same in every language.
export async function testSameFigures(home) {
  const only = (value) => JSON.stringify(value, (key, v) => (typeof v === 'string' && !/^-?[\d.]+$/.test(v) ? undefined : v));
  for (const address of ['/results', '/compare', '/materials', '/pour', '/watch']) {
    await check(`the figures of ${address} do not follow the reader's language`, async () => {
      const [english, german] = await Promise.all(['en', 'es,de;q=0.9'].map(async (language) => (
        (await fetch(`${home}${address}.json`, { headers: { 'Accept-Language': language } })).json())));
      ensure(Object.keys(english.tables).length > 0, 'no table');
      same(only(german.tables), only(english.tables), 'figures');
    });
  }
}

export async function testNewcomer(browser, folder) {
  const server = await serve(emptyBook(folder, 'newcomer.book'));
  const { context, page, odd } = await openPage(browser, PHONE, server.address);
  try {
    await noDeadEnds(server.address);
    await stepByStep(page, server.address);
    await asPeopleWrite(page, server.address);
    await gearNext(page, server.address);
    await undoes(page, server.address);
    await check('nothing odd happened', async () => same(odd.join('\n'), '', 'odd'));
  } finally {
    await close(context);
    await server.stop();
  }
}
