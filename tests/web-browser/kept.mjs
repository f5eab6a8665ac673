// kept.mjs - pages kept by the worker: seen and used while the laptop is away.
// A browser takes the loopback address for a secure place (W3C, Secure Contexts,
// 3.1), so that the worker starts as it does under a trusted certificate.
import { check, close, emptyBook, ensure, openPage, PHONE, run, same, serve } from './harness.mjs';

async function keptPaths(page) {
  return page.evaluate(async () => (await (await caches.open('pages')).keys()).map((r) => new URL(r.url).pathname));
}

// A page that the worker serves, on a book with one foam generator.
async function open(browser, folder, name) {
  const book = emptyBook(folder, `${name}.book`);
  run('generator', book, 'G1', '--metering', 'seconds', '--target', '70 g/L', '--vessel-empty', '612 g', '--vessel-full', '10.9 kg', '--scale-step', '5 g', '--rate', '25 L/min', '--dilution', '40');
  const server = await serve(book);
  const { context, page, odd } = await openPage(browser, { ...PHONE, serviceWorkers: 'allow' }, server.address);
  await page.goto(`${server.address}/foam/G1`);
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await page.reload();
  await page.waitForFunction(async () => (await caches.match('/foam/G1')) !== undefined);
  return { book, server, context, page, odd };
}

async function weigh(page, gross) {
  const old = await page.locator('form#foam-check input[name=key]').inputValue();
  await page.locator('#foam-check-gross').fill(gross);
  await page.locator('select[name=gross_unit]').selectOption('g');
  await page.locator('form#foam-check .send button').tap();
  await page.waitForFunction((k) => {
    const key = document.querySelector('form#foam-check input[name=key]');
    return key && key.value !== k;
  }, old);
}

async function waiting(page) {
  return page.evaluate(() => Object.keys(localStorage).filter((k) => k.startsWith('out:')).length);
}

export async function testKept(browser, folder) {
  await check('a kept page says so, takes entries, and each is recorded once', async () => {
    const { book, server, context, page, odd } = await open(browser, folder, 'kept');
    let again;
    try {
      await weigh(page, '1301'); // the key of the kept page is used up
      await server.kill();
      await page.goto(`${server.address}/foam/G1`);
      const line = await page.locator('#outbox').innerText();
      ensure(/cannot be reached/.test(line) && /was kept on .*\d/.test(line), `the line says: ${line}`);
      await weigh(page, '1302');
      await page.goto(`${server.address}/foam/G1`); // the same kept page again
      await weigh(page, '1303');
      same(await waiting(page), 2, 'entries waiting');
      const { status, text } = await page.goto(`${server.address}/today`).then(async (r) => ({ status: r.status(), text: await page.locator('h1').innerText() }));
      same(`${status} ${text}`, '200 Today', 'a page never opened before, kept ahead');
      again = await serve(book, server.port);
      await page.goto(`${again.address}/foam/G1`);
      await page.waitForFunction(() => Object.keys(localStorage).every((k) => !k.startsWith('out:')));
      ensure(!/kept on/.test(await page.locator('#outbox').innerText()), 'the page of now is told to be kept');
      const rows = (await (await fetch(`${again.address}/foam/G1.json`)).json()).tables.checks;
      for (const gross of [1301, 1302, 1303])
        same(rows.filter((r) => Math.round(r.gross * 1000) === gross).length, 1, `times ${gross} g stands in the book`);
      same(odd.join('\n'), '', 'odd');
    } finally {
      await close(context);
      if (again) await again.stop();
    }
    run('verify', book);
  });
  await check('the laptop is asked first: a kept page never hides a newer one', async () => {
    const { book, server, context, page } = await open(browser, folder, 'newer');
    try {
      run('foam', book, 'G1', '--gross', '1400 g');
      await page.goto(`${server.address}/foam/G1`);
      same(await page.evaluate(() => document.body.dataset.kept ?? null), null, 'kept');
      same(await page.locator('main table tbody tr').count(), 1, 'foam checks shown');
    } finally {
      await close(context);
      await server.stop();
    }
  });
  await check('signing in or out leaves no page behind; data are not kept', async () => {
    const { server, context, page } = await open(browser, folder, 'gone');
    try {
      ensure((await keptPaths(page)).includes('/foam/G1'), 'nothing was kept');
      await page.evaluate(() => fetch('/foam/G1.json'));
      ensure((await keptPaths(page)).every((p) => !p.endsWith('.json')), 'data were kept');
      await page.evaluate(() => fetch('/sign-out', { method: 'POST' }));
      await page.waitForFunction(async () => !(await caches.has('pages')));
    } finally {
      await close(context);
      await server.stop();
    }
  });
}
