// outbox.mjs - entries made while the network comes and goes: none lost, none
// recorded twice.
import { check, close, emptyBook, ensure, openPage, PHONE, run, same, serve, unfold, within } from './harness.mjs';

// A small generator of our own, so that a failure comes again.
function stream(seed) {
  let x = seed >>> 0;
  return () => {
    x ^= x << 13; x >>>= 0; x ^= x >>> 17; x ^= x << 5; x >>>= 0;
    return x / 4294967296;
  };
}

async function waiting(page) {
  return page.evaluate(() => Object.keys(localStorage).filter((k) => k.startsWith('out:')).length);
}

// A question to a page that is on its way to another may never be answered.
async function settle(page) {
  const last = Date.now() + 60000;
  let left = -1; // -1: the page was on its way to another when it was asked
  while (left !== 0 && Date.now() < last) {
    left = await within(2, waiting(page).catch(() => -1), -1);
    if (left === 0) break;
    await within(2, page.evaluate(() => window.dispatchEvent(new Event('online'))).catch(() => {}));
    await page.waitForTimeout(50);
  }
  same(left, 0, 'entries still waiting');
}

export async function testOutbox(browser, home, book, cuts) {
  await check(`${cuts} cuts while recording: nothing lost, nothing doubled`, async () => {
    const { context, page } = await openPage(browser, PHONE, home);
    const chance = stream(20260917);
    let mode = 'up';
    let sent = 0;

    // up: through; dead: not reached; deaf: recorded, but the answer is lost
    await page.route('**/foam/**', async (route) => {
      if (route.request().method() !== 'POST') return route.continue();
      if (mode === 'dead') return route.abort('failed');
      sent++;
      if (mode === 'deaf') {
        await route.fetch({ maxRedirects: 0 }).catch(() => {});
        return route.abort('failed');
      }
      return route.continue();
    });
    await page.goto(`${home}/foam/G1`);
    for (let i = 0; i < cuts; i++) {
      const toss = chance();
      mode = toss < 0.4 ? 'dead' : toss < 0.8 ? 'deaf' : 'up';
      await page.locator('#foam-check-gross').fill(String(1300 + i));
      await page.locator('select[name=gross_unit]').selectOption('g');
      const old = await page.locator('form#foam-check input[name=key]').inputValue();
      await page.locator('form#foam-check button').tap();
      await page.waitForFunction((k) => {
        const key = document.querySelector('form#foam-check input[name=key]');
        return key && key.value !== k;
      }, old, { timeout: 20000 });
      if (chance() < 0.1) { // the page is opened anew in the middle of it
        mode = 'up';
        await page.goto(`${home}/foam/G1`);
      }
    }
    mode = 'up';
    await settle(page);
    await close(context);
    const rows = (await (await fetch(`${home}/foam/G1.json`)).json()).tables.checks;
    for (let i = 0; i < cuts; i++) {
      const n = rows.filter((r) => Math.round(r.gross * 1000) === 1300 + i).length;
      same(n, 1, `entry ${i} stands in the book so many times`);
    }
    ensure(sent > cuts, `only ${sent} were sent, so no answer was lost`);
    run('verify', book);
  });
}

async function kept(page, prefix) {
  return page.evaluate((p) => Object.keys(localStorage).filter((k) => k.startsWith(p)).length, prefix);
}

async function weighFoam(page, gross, unit = 'g') {
  await page.locator('#foam-check-gross').fill(gross);
  await page.locator('select[name=gross_unit]').selectOption(unit);
  await page.locator('form#foam-check .send button').tap();
}

async function timesRecorded(home, kg) {
  const rows = (await (await fetch(`${home}/foam/G1.json`)).json()).tables.checks;
  return rows.filter((r) => Math.abs(r.gross - kg) < 1e-9).length;
}

export async function testLater(browser, home, folder) {
  await check('an entry that is refused later comes back with the reason', async () => {
    const { context, page } = await openPage(browser, PHONE, home);
    let away = true;
    await page.route('**/foam/**', (route) => (away && route.request().method() === 'POST' ? route.abort('failed') : route.continue()));
    await page.goto(`${home}/foam/G1`);
    await weighFoam(page, '12 parsecs');
    await page.waitForFunction(() => document.querySelector('#outbox a, #outbox.waits') && /1/.test(document.querySelector('#outbox').textContent));
    same(await kept(page, 'out:'), 1, 'entries waiting');
    away = false;
    await settle(page);
    same(await kept(page, 'bad:'), 1, 'entries refused and kept');
    await page.locator('#outbox a').tap();
    await page.waitForFunction(() => document.querySelector('#foam-check-gross')?.value === '12 parsecs'); // what was typed
    await page.waitForLoadState('load');
    ensure((await page.locator('form#foam-check > .error').innerText()).includes('parsecs'), 'the reason is not told');
    await weighFoam(page, '1987.5');
    await page.waitForLoadState('load');
    await page.waitForFunction(() => Object.keys(localStorage).every((k) => !/^(out|bad):/.test(k)));
    same(await timesRecorded(home, 1.9875), 1, 'times recorded');
    await close(context);
  });
  await check('a reload brings back what was typed, and it can be thrown away', async () => {
    const { context, page } = await openPage(browser, PHONE, home);
    await page.goto(`${home}/foam/G1`);
    await page.locator('#foam-check-gross').fill('1,5');
    await page.reload();
    same(await page.locator('#foam-check-gross').inputValue(), '1,5', 'after a reload');
    await page.locator('form#foam-check > .hint button').tap();
    same(await page.locator('#foam-check-gross').inputValue(), '', 'thrown away');
    await page.reload();
    same(await page.locator('#foam-check-gross').inputValue(), '', 'still away');
    await close(context);
  });
  await check('what is brought back into a fold opens it', async () => {
    const { context, page } = await openPage(browser, PHONE, home);
    await page.goto(`${home}/piece/01-B-1`);
    const mass = page.locator('#weigh-mass');
    ensure(!await mass.isVisible(), 'not folded');
    await unfold(mass, true);
    await mass.fill('4,2');
    await page.reload();
    ensure(await mass.isVisible(), 'still folded');
    same(await mass.inputValue(), '4,2', 'after a reload');
    await page.locator('form#weigh > .hint button').tap();
    await close(context);
  });
  await check('the laptop is started anew while an entry waits', async () => {
    const book = emptyBook(folder, 'anew.book');
    run('generator', book, 'G1', '--metering', 'seconds', '--target', '70 g/L', '--vessel-empty', '612 g', '--vessel-full', '10.9 kg', '--scale-step', '5 g', '--rate', '25 L/min', '--dilution', '40');
    let server = await serve(book);
    const { port, address } = server;
    const { context, page } = await openPage(browser, PHONE, address);
    try {
      await page.goto(`${address}/foam/G1`);
      await server.kill();
      await weighFoam(page, '1311');
      await page.waitForFunction(() => /cannot be reached/.test(document.querySelector('#outbox').textContent));
      server = await serve(book, port);
      await settle(page);
      same(await timesRecorded(address, 1.311), 1, 'times recorded');
      same(await kept(page, 'bad:'), 0, 'refused');
      await weighFoam(page, '1312');
      await page.waitForURL(/saved|foam/);
      await settle(page);
      same(await timesRecorded(address, 1.312), 1, 'the next one');
    } finally {
      await close(context);
      await server.stop();
    }
  });
  await check('the line of what is saved speaks Spanish', async () => {
    const { context, page } = await openPage(browser, { ...PHONE, locale: 'es-MX' }, home);
    await page.goto(`${home}/foam/G1`);
    same(await page.evaluate(() => document.documentElement.lang), 'es', 'language');
    await weighFoam(page, '1988.5');
    await page.waitForFunction(() => /Todo guardado/.test(document.querySelector('#outbox').textContent));
    await close(context);
  });
}
