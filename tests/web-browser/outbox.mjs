// outbox.mjs - entries made while the network comes and goes: none lost, none
// recorded twice.
import { check, ensure, openPage, PHONE, run, same } from './harness.mjs';

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

async function settle(page) {
  for (let i = 0; i < 200 && await waiting(page) > 0; i++) {
    await page.evaluate(() => window.dispatchEvent(new Event('online')));
    await page.waitForTimeout(50);
  }
  same(await waiting(page), 0, 'entries still waiting');
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
    await context.close();
    const rows = (await (await fetch(`${home}/foam/G1.json`)).json()).tables.checks;
    for (let i = 0; i < cuts; i++) {
      const n = rows.filter((r) => Math.round(r.gross * 1000) === 1300 + i).length;
      same(n, 1, `entry ${i} stands in the book so many times`);
    }
    ensure(sent > cuts, `only ${sent} were sent, so no answer was lost`);
    run('verify', book);
  });
}
