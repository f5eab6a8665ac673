// slow_phone.mjs - how long until the first page can be used on a poor phone:
// 400 kbit/s, 400 ms a round trip and a processor slowed four times, emulated by
// the browser; an empty cache each time.  FOAMWRIGHT and FOAMWRIGHT_DEMO as for
// the browser tests.  "Usable": parsed, styled and its deferred script run.
import {
  PHONE, close, demoBook, freshFolder, launch, remove, serve, visit,
} from '../tests/web-browser/harness.mjs';

const ROUNDS = 5;
const folder = freshFolder();
const server = await serve(demoBook(folder));
const browser = await launch();

async function measure(address) {
  const context = await browser.newContext({ ...PHONE, serviceWorkers: 'block' });
  const page = await context.newPage();
  const cdp = await context.newCDPSession(page);
  await cdp.send('Network.enable');
  await cdp.send('Network.emulateNetworkConditions', {
    offline: false, latency: 400, downloadThroughput: 400e3 / 8, uploadThroughput: 400e3 / 8,
  });
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  await page.goto(address, { waitUntil: 'load' });
  const times = await page.evaluate(() => {
    const n = performance.getEntriesByType('navigation')[0];
    const paint = performance.getEntriesByName('first-contentful-paint')[0];
    const all = [n, ...performance.getEntriesByType('resource')];
    return {
      paint: paint ? paint.startTime : NaN,
      usable: n.domContentLoadedEventEnd,
      load: n.loadEventEnd,
      bytes: all.reduce((sum, r) => sum + r.transferSize, 0),
      requests: all.length,
    };
  });
  await close(context);
  return times;
}

const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];

try {
  for (const path of ['/today', '/mixer', '/bench']) {
    const warm = await browser.newPage({ serviceWorkers: 'block' }); // the page itself is kept by then
    await visit(warm, server.address + path);
    await warm.close();
    const got = [];
    for (let i = 0; i < ROUNDS; i++) got.push(await measure(server.address + path));
    const of = (name) => Math.round(median(got.map((t) => t[name])));
    console.log(`  ${path}: painted ${of('paint')} ms, usable ${of('usable')} ms, `
      + `loaded ${of('load')} ms; ${of('bytes')} bytes in ${of('requests')} requests`);
  }
} finally {
  await close(browser);
  await server.stop();
  remove(folder);
}
