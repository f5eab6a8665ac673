// journey.mjs - the whole job by clicking, from an empty book to a decision;
// with scripts and without, at the desk and on the phone.
import { check, close, DESK, emptyBook, ensure, openPage, PHONE, same, serve, unfold } from './harness.mjs';

// Fills the fields of one form and sends it, as a person does.
async function fill(page, form, values, options = {}) {
  const root = page.locator(`form#${form}`);
  for (const [name, value] of Object.entries(values)) {
    const field = root.locator(`[name="${name}"]`);
    await unfold(field.first(), options.tap);
    const kind = await field.first().evaluate((e) => (e.tagName === 'SELECT' ? 'select' : e.type || 'text'));
    if (kind === 'select') await field.selectOption(value);
    else if (kind === 'radio') await root.locator(`[name="${name}"][value="${value}"]`).check();
    else if (kind === 'checkbox') await field.check();
    else await field.fill(value);
  }
  const button = options.press ? root.locator(`button[value="${options.press}"]`) : root.locator('.send button');
  await unfold(button, options.tap);
  const before = page.url();
  const come = page.waitForEvent('load', { timeout: 15000 }).catch(() => null);
  if (options.tap) await button.tap(); else await button.click();
  if (!options.stays) await come;
  void before;
}

async function noFault(page, step) {
  const fault = page.locator('.faults');
  if (await fault.count() > 0) throw new Error(`${step}: ${await fault.first().innerText()}`);
}

async function materials(page, home, o) {
  const rows = [
    { code: 'cement', from: 'cement', package: '25', price: '3.50' },
    { code: 'water', from: 'water' },
    { code: 'sand', from: 'fine-sand', package: '25', price: '1.20', moisture: '4' },
    { code: 'agent', from: 'synthetic-agent', package: '20', price: '80' },
  ];
  for (const row of rows) {
    await page.goto(`${home}/materials`);
    await fill(page, 'material', row, o);
    await noFault(page, `material ${row.code}`);
  }
}

async function gear(page, home, o) {
  await page.goto(`${home}/gear`);
  await fill(page, 'gear', { mixer: '90', 'scale-step': '20', spare: '10' }, o);
  await noFault(page, 'gear');
  await fill(page, 'generator', { code: 'G1', metering: 'seconds', target: '70', 'vessel-empty': '0.612', 'vessel-full': '10.9', 'scale-step': '5', rate: '25', dilution: '40' }, o);
  await noFault(page, 'generator');
  await page.goto(`${home}/foam/G1`);
  await fill(page, 'foam-check', { gross: '1.333', moment: 'start' }, o);
  await noFault(page, 'foam check');
}

async function mixes(page, home, o) {
  await page.goto(`${home}/mixes`);
  await fill(page, 'mix', { code: 'B', name: 'Plain', 'part-1': 'cement', 'amount-1': '1', 'part-2': 'water', 'amount-2': '0.48', wet: '720', foam: '70', blending: '90', agent: 'agent' }, o);
  await noFault(page, 'mix B');
  await page.goto(`${home}/mixes`);
  await fill(page, 'mix', { code: 'S', name: 'Dense', like: 'B', wet: '880', agent: 'agent' }, o);
  await noFault(page, 'mix S');
}

async function trial(page, home, o) {
  await page.goto(`${home}/trial`);
  await fill(page, 'trial', { code: 'T1', question: 'which mix for the wall?', baseline: 'B', 'mix-B': true, 'mix-S': true, batches: '2', pieces: '2', 'per-day': '4' }, o);
  await noFault(page, 'trial');
  const data = await (await fetch(`${home}/mixer.json`)).json();
  same(data.tables.planned.length >= 4, true, 'batches planned');
  return data.tables.planned;
}

async function mould(page, home, o) {
  await page.goto(`${home}/bench`);
  await fill(page, 'form', { code: 'B1', shape: 'beam', width: '100', depth: '75', length: '700' }, o);
  await noFault(page, 'form');
}

async function batch(page, home, row, o) {
  await page.goto(`${home}/batch/${row.batch}`);
  await fill(page, 'weighed', { slurry: row.mix === 'B' ? '1856' : '1856' }, o);
  await noFault(page, `batch ${row.batch} weighed`);
  await fill(page, 'wet', { wet: row.mix === 'B' ? '722' : '884', 'since-foam': '4' }, o);
  await noFault(page, `batch ${row.batch} wet`);
  await fill(page, 'settling', { 'loss-day': '1.5' }, o);
  await noFault(page, `batch ${row.batch} settling`);
}

async function pieces(page, home, row, o) {
  await page.goto(`${home}/bench`);
  await fill(page, 'pieces', { batch: row.batch, mould: 'B1', count: '1', 'test-age': '1' }, o);
  await noFault(page, `pieces of ${row.batch}`);
  const data = await (await fetch(`${home}/bench.json?batch=${row.batch}`)).json();
  same(data.tables.waiting.length, 1, 'pieces registered');
  return data.tables.waiting.map((r) => r.piece);
}

async function bend(page, home, piece, weights, o) {
  await page.goto(`${home}/piece/${piece}`);
  await fill(page, 'bend', { span: '600', hanger: '1.2', weights: '10 kg, 5 kg, 2 kg' }, o);
  await noFault(page, `bend ${piece}`);
  // Enter in the field records what was typed there, and no weight of a button.
  await page.locator('form#own [name="weight"]').fill('1.5');
  const come = page.waitForEvent('load', { timeout: 15000 }).catch(() => null);
  await page.locator('form#own [name="weight"]').press('Enter');
  await come;
  same(await page.locator('.big strong').first().innerText(), '2.7 kg', 'on it after a weight typed');
  await fill(page, 'step', {}, { ...o, press: 'undone' });
  for (const kg of weights) await fill(page, 'step', {}, { ...o, press: `${kg} kg` });
  const load = await page.locator('.big strong').first().innerText();
  const sum = weights.reduce((a, b) => a + b, 1.2);
  ensure(Math.abs(parseFloat(load) - sum) < 1e-6, `the running load is ${load}, not ${sum}`);
  await fill(page, 'step', {}, { ...o, press: '2 kg' });
  await fill(page, 'step', {}, { ...o, press: 'undone' });
  await fill(page, 'step', {}, { ...o, press: '2 kg' });
  await fill(page, 'step', {}, { ...o, press: 'fell' });
  await fill(page, 'step', {}, { ...o, press: 'keep' });
  await noFault(page, `keep ${piece}`);
}

async function building(page, home, o) {
  await page.goto(`${home}/building`);
  await fill(page, 'part', { code: 'wall', kind: 'wall', name: 'wall', length: '6', height: '2.4', thickness: '200', openings: '2', 'what-1': 'bending_strength', 'bound-1': 'at least 0.2 N/mm2' }, o);
  await noFault(page, 'part');
}

async function decide(page, home, o) {
  await page.goto(`${home}/choose`);
  await fill(page, 'decide-wall', { mix: 'B', because: 'it does, and it is lighter' }, o);
  await noFault(page, 'decide');
  const text = await page.locator('main').innerText();
  ensure(text.includes('it does, and it is lighter'), 'the decision is not on the page');
}

async function wholeJob(browser, folder, name, options, o) {
  const book = emptyBook(folder, `${name}.book`);
  const server = await serve(book);
  const home = server.address;
  const { context, page, odd } = await openPage(browser, options, home);
  try {
    await materials(page, home, o);
    await gear(page, home, o);
    await mixes(page, home, o);
    const planned = await trial(page, home, o);
    await mould(page, home, o);
    for (const row of planned) {
      await batch(page, home, row, o);
      const codes = await pieces(page, home, row, o);
      for (const code of codes) await bend(page, home, code, row.mix === 'B' ? [10, 5] : [10, 10, 5], o);
    }
    await page.goto(`${home}/compare`);
    const text = await page.locator('main').innerText();
    ensure(/times B/.test(text), `compare says: ${text.slice(0, 400)}`);
    await building(page, home, o);
    await decide(page, home, o);
    await page.goto(`${home}/pour`);
    ensure((await page.locator('main').innerText()).includes('To buy'), 'nothing to buy');
    await page.goto(`${home}/plan`);
    ensure((await page.locator('main').innerText()).includes('Day by day'), 'no plan');
    same(odd.join('\n'), '', 'odd');
  } finally {
    await close(context);
    await server.stop();
  }
}

export async function testJourneys(browser, folder) {
  await check('the whole job by clicking, at the desk', () => wholeJob(browser, folder, 'desk', DESK, {}));
  await check('the whole job by tapping, on a phone', () => wholeJob(browser, folder, 'phone', PHONE, { tap: true }));
  await check('the whole job without scripts', () => wholeJob(browser, folder, 'plain', { ...DESK, javaScriptEnabled: false }, {}));
}
