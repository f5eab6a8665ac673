// slow_phone.mjs - how long until the first page can be used on a poor phone:
// 400 kbit/s, 400 ms a round trip and a processor slowed four times, emulated by
// the browser; an empty cache each time.  FOAMWRIGHT and FOAMWRIGHT_DEMO as for
// the browser tests.  A page can be read and its forms sent once it is painted; with
// its script run it also keeps what is typed.  An empty page, and one that only names
// an empty script, tell what of it is the emulation itself: no page can be faster.
import http from 'node:http';
import {
  PHONE, close, demoBook, freshFolder, launch, remove, serve, visit,
} from '../tests/web-browser/harness.mjs';

const ROUNDS = 9;
const folder = freshFolder();
const server = await serve(demoBook(folder));
const least = http.createServer((request, answer) => {
  const isScript = request.url === '/script.js';
  answer.setHeader('content-type', isScript ? 'text/javascript' : 'text/html');
  answer.end(isScript ? '' : `<!doctype html><html lang="en"><title>.</title>${
    request.url === '/script' ? '<script src="/script.js" defer></script>' : ''}<p>.</p>`);
}).listen(0, '127.0.0.1');
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
  const times = await page.evaluate(async () => {
    const paint = await new Promise((resolve) => { // it may come after all is loaded
      new PerformanceObserver((list) => {
        const found = list.getEntriesByName('first-contentful-paint')[0];
        if (found) resolve(found);
      }).observe({ type: 'paint', buffered: true });
    });
    const n = performance.getEntriesByType('navigation')[0];
    const all = [n, ...performance.getEntriesByType('resource')];
    return {
      paint: paint.startTime,
      scripted: n.domContentLoadedEventEnd,
      load: n.loadEventEnd,
      bytes: all.reduce((sum, r) => sum + r.transferSize, 0),
      requests: all.length,
    };
  });
  await close(context);
  return times;
}

const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];

async function tell(name, address) {
  const got = [];
  for (let i = 0; i < ROUNDS; i++) got.push(await measure(address));
  const of = (what) => Math.round(median(got.map((t) => t[what])));
  console.log(`  ${name}: painted ${of('paint')} ms, script run ${of('scripted')} ms, `
    + `loaded ${of('load')} ms; ${of('bytes')} bytes in ${of('requests')} requests`);
}

try {
  const empty = `http://127.0.0.1:${least.address().port}`;
  await tell('an empty page', `${empty}/`);
  await tell('an empty page with an empty script', `${empty}/script`);
  for (const path of ['/today', '/mixer', '/bench']) {
    const warm = await browser.newPage({ serviceWorkers: 'block' }); // the page itself is kept by then
    await visit(warm, server.address + path);
    await warm.close();
    await tell(path, server.address + path);
  }
} finally {
  await close(browser);
  least.close();
  await server.stop();
  remove(folder);
}
