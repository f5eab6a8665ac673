// logger.mjs - a logger's file brought in by clicking, larger than a form or a
// phone's outbox may be: asked about, kept, and given back byte for byte; with
// scripts and without.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { check, close, DESK, ensure, openPage, PHONE, same, visit } from './harness.mjs';

// Two load cells; invented, of steps that do not pack well.
function twoCells() {
  const rows = ['Time (s);Load 1 (N);Load 2 (N)'];
  let seed = 7;
  for (let i = 0; i < 30000; i++) {
    seed = (seed * 48271) % 2147483647;
    rows.push([(i / 100).toFixed(2), (40 + (seed % 9973) / 1000).toFixed(3), (i < 20000 ? i / 200 : 30).toFixed(3)].join(';').replaceAll('.', ','));
  }
  return Buffer.from(`${rows.join('\r\n')}\r\n`);
}

async function press(page, which) {
  const come = page.waitForEvent('load', { timeout: 30000 });
  await page.locator(`form#trace ${which}`).click();
  await come;
}

async function bringIn(browser, home, folder, name, options) {
  const { context, page, odd } = await openPage(browser, options, home);
  const file = join(folder, `${name}.csv`);
  try {
    writeFileSync(file, twoCells());
    await visit(page, `${home}/traces?piece=01-B-2`);
    await page.check('form#trace input[name=kind][value=load]');
    await page.setInputFiles('form#trace input[type=file]', file);
    await press(page, '.send button');
    ensure((await page.locator('#trace-column-error').innerText()).includes('Load 2'), 'which load is not asked');
    await page.selectOption('form#trace select[name=column]', 'Load 2');
    await press(page, '.send button');
    same(await page.locator('.faults').count(), 0, 'faults');
    ensure((await page.innerText('main')).includes('First crack at 100 N'), 'what it would say');
    await page.fill('form#trace input[name=code]', name);
    await press(page, '.send button');
    same(page.url(), `${home}/trace/${name}?saved=1`, 'where it leads');
    if (options.javaScriptEnabled !== false)
      same(await page.evaluate(() => Object.keys(localStorage).filter((k) => /^(out|bad|draft):/.test(k)).join(' ')), '', 'kept by the browser');
    const back = await fetch(`${home}/trace-file/${name}.csv`);
    ensure(Buffer.from(await back.arrayBuffer()).equals(readFileSync(file)), 'other bytes came back');
    same(odd.join('\n'), '', 'odd');
  } finally {
    await close(context);
  }
}

export async function testLogger(browser, home, folder) {
  await check("a logger's file on a phone", () => bringIn(browser, home, folder, 'phone', PHONE));
  await check("a logger's file without scripts", () => bringIn(browser, home, folder, 'plain', { ...DESK, javaScriptEnabled: false }));
}
