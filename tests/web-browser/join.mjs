// join.mjs - a phone joins over the local network: by picture and by code, to record
// and to read, on plain HTTP and encrypted.
//
// Nothing leaves the machine: the browser believes that the laptop's network address
// is a relay on 127.0.0.1, and the relay asks the server from that network address,
// so that the server takes the browser for another machine.  Cut, the relay is a
// network without a signal.
import { execFileSync } from 'node:child_process';
import { X509Certificate } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { get } from 'node:https';
import { connect, createServer } from 'node:net';
import { join } from 'node:path';
import { check, close, emptyBook, ensure, launch, openPage, PHONE, run, same, serve, unfold } from './harness.mjs';

const OUT = 'out:';

// What a page noted, but for what a browser always says on plain HTTP: that it
// looks past this header.
function noted(odd) {
  return odd.filter((words) => !/Cross-Origin-Opener-Policy header has been ignored/.test(words)).join('\n');
}

// To the port of the server on 127.0.0.1, from the address `from`.
async function relay(port, from) {
  const open = new Set();
  let there = true;
  const server = createServer((near) => {
    const far = connect({ port, host: '127.0.0.1', localAddress: from });
    for (const [one, other] of [[near, far], [far, near]]) {
      open.add(one);
      one.on('error', () => {}).on('close', () => { open.delete(one); other.destroy(); });
      one.pipe(other);
    }
    if (!there) near.destroy();
  });
  await new Promise((resolve) => { server.listen(0, '127.0.0.1', resolve); });
  return {
    port: server.address().port,
    cut: () => { there = false; open.forEach((one) => one.destroy()); },
    mend: () => { there = true; },
    stop: () => { open.forEach((one) => one.destroy()); server.close(); },
  };
}

function word(server, before) {
  return server.said().match(new RegExp(`${before}: +(\\w+)`))[1];
}

function joinBook(folder, name) {
  const book = emptyBook(folder, name);
  run('generator', book, 'G1', '--metering', 'seconds', '--target', '70 g/L', '--vessel-empty', '612 g', '--vessel-full', '10.9 kg', '--scale-step', '5 g', '--rate', '25 L/min', '--dilution', '40');
  run('material', book, 'cement', '--from', 'cement');
  run('material', book, 'water', '--from', 'water');
  run('mix', book, 'A', '--name', 'Plain', '--part', 'cement=1', '--part', 'water=0.48', '--wet', '720 kg/m3', '--foam', '70 g/L');
  run('mix', book, 'B', '--name', 'Light', '--like', 'A', '--wet', '600 kg/m3');
  run('form', book, 'T1', '--shape', 'beam', '--inner', '100 mm x 75 mm x 700 mm');
  run('trial', book, 'T', '--question', 'which?', '--baseline', 'A', '--mix', 'B', '--batches', '1', '--pieces', '1');
  run('batch', book, 'T-01', '--wet', '731 kg/m3', '--on', '2026-05-01');
  const [piece] = JSON.parse(run('pieces', book, 'T-01', '--form', 'T1', '--count', '1', '--json')).pieces;
  return { book, piece };
}

// Where the phone finds the laptop on the network: "http://192.168.1.20:8080".
function homeOf(server) {
  return server.said().match(/(https?:\/\/\S+?)\/ for other machines/)[1];
}

function mapped(home, port, ...more) {
  const { host } = new URL(home);
  const rules = [host, ...more].map((name) => `MAP ${name} 127.0.0.1:${port}`);
  return `--host-resolver-rules=${rules.join(',')}`;
}

async function rows(page, address, table) {
  return page.evaluate(async ([at, name]) => (await (await fetch(at)).json()).tables[name], [address, table]);
}

async function timesRecorded(page, gross) {
  return (await rows(page, '/foam/G1.json', 'checks')).filter((r) => Math.round(r.gross * 1000) === gross).length;
}

async function waiting(page) {
  return page.evaluate((p) => Object.keys(localStorage).filter((k) => k.startsWith(p)).length, OUT);
}

async function allSent(page) {
  await page.evaluate(() => window.dispatchEvent(new Event('online'))).catch(() => {});
  await page.waitForFunction((p) => Object.keys(localStorage).every((k) => !k.startsWith(p)), OUT);
}

async function weighFoam(page, gross) {
  const old = await page.locator('form#foam-check input[name=key]').inputValue();
  await page.locator('#foam-check-gross').fill(String(gross));
  await page.locator('select[name=gross_unit]').selectOption('g');
  await page.locator('form#foam-check .send button').tap();
  await page.waitForFunction((k) => {
    const key = document.querySelector('form#foam-check input[name=key]');
    return key && key.value !== k;
  }, old);
}

async function signIn(page, home, code) {
  await page.goto(`${home}/sign-in`);
  await page.locator('#sign-in-code').fill(code);
  await page.locator('form#sign-in .send button').tap();
  await page.waitForURL('**/today');
}

// The address in the picture on the laptop's screen, read off it as a camera does.
async function readPicture(browser, server, folder) {
  const { context, page } = await openPage(browser, {}, server.address);
  await page.goto(`${server.address}/pair`);
  const path = join(folder, 'pair.png');
  const picture = page.locator('img[src*="/pair/picture"]');
  await picture.evaluate((img) => img.decode());
  writeFileSync(path, await picture.screenshot());
  await close(context);
  return execFileSync('zbarimg', ['--quiet', '--raw', path], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).trim();
}

async function opensNothing(page, home, words) {
  for (const path of ['/today', '/foam/G1', '/foam/G1.json', '/record', '/pair', '/pair/picture.svg']) {
    await page.goto(home + path);
    same(new URL(page.url()).pathname, '/sign-in', `${words}: ${path} leads to`);
  }
}

async function cookieOf(context, secure, words) {
  const cookie = (await context.cookies()).find((c) => c.name === 'session');
  ensure(cookie, `${words}: no session`);
  same([cookie.httpOnly, cookie.sameSite, cookie.secure, cookie.path, cookie.expires].join(' '),
    `true Strict ${secure} / -1`, `${words}: HttpOnly, SameSite, Secure, Path, expiry`);
  return cookie;
}

async function testPlain(folder) {
  const { book, piece } = joinBook(folder, 'join.book');
  const server = await serve(book, 0, ['--lan']);
  const home = homeOf(server);
  const way = await relay(server.port, new URL(home).hostname);
  const evil = `elsewhere.example:${server.port}`;
  const browser = await launch([mapped(home, way.port, evil, 'elsewhere.example:80')]);
  let phone;

  await check('join: outside nothing opens, and a wrong code lets nobody in', async () => {
    phone = await openPage(browser, { ...PHONE, serviceWorkers: 'allow' }, home);
    await opensNothing(phone.page, home, 'not signed in');
    await phone.page.locator('#sign-in-code').fill('WRONGWRONG');
    await phone.page.locator('form#sign-in .send button').tap();
    await phone.page.locator('form#sign-in .error').first().waitFor();
    same(await phone.page.evaluate(() => Object.keys(localStorage).join()), '', 'a code was kept on the phone');
    await opensNothing(phone.page, home, 'after a wrong code');
  });
  await check('join: the picture on the laptop lets one phone in, once', async () => {
    const old = await readPicture(browser, server, folder);
    const address = await readPicture(browser, server, folder);
    ensure(old !== address && address.startsWith(`${home}/pair/`), `the picture says ${address}`);
    const { page, context } = phone;
    for (const [at, is] of [[old, false], [address, true]]) {
      await page.goto(at);
      await page.goto(at); // to look at it uses nothing up
      await page.locator('form#pair .send button').tap();
      if (is) await page.waitForURL('**/today');
      else await page.getByText('used already').waitFor();
    }
    await cookieOf(context, false, 'plain HTTP');
    same(await page.evaluate(() => document.cookie), '', 'the page sees the session');
    const second = await openPage(browser, PHONE, home);
    await second.page.goto(address);
    await second.page.locator('form#pair .send button').tap();
    await second.page.getByText('used already').waitFor();
    await opensNothing(second.page, home, 'the second phone');
    same(noted([...phone.odd, ...second.odd]), '', 'odd');
    await close(second.context);
  });
  await check('join: on plain HTTP the phone records by tapping, without a worker', async () => {
    const { page, odd } = phone;
    await page.goto(`${home}/foam/G1`);
    const can = await page.evaluate(() => [isSecureContext, !!navigator.serviceWorker, !!navigator.mediaDevices].join());
    same(can, 'false,false,false', 'secure place, worker, camera');
    await weighFoam(page, 1911);
    same(await timesRecorded(page, 1911), 1, 'foam check recorded');
    await page.goto(`${home}/piece/${piece}`);
    await unfold(page.locator('#weigh-mass'), true);
    await page.locator('#weigh-mass').fill('3,21 kg');
    await page.locator('form#weigh .send button').tap();
    await page.waitForURL('**?saved=1');
    same(run('history', book).match(/reading \w+ weighing/g)?.length, 1, 'times the weighing stands in the history');
    same(noted(odd), '', 'odd');
  });
  await check('join: the signal goes and comes back, each entry is recorded once', async () => {
    const { page } = phone;
    await page.goto(`${home}/foam/G1`);
    way.cut();
    await weighFoam(page, 1921);
    await weighFoam(page, 1922);
    same(await waiting(page), 2, 'entries waiting');
    ensure(/cannot be reached/.test(await page.locator('#outbox').innerText()), 'the line does not say so');
    way.mend();
    await allSent(page);
    for (const gross of [1921, 1922]) same(await timesRecorded(page, gross), 1, `${gross} g recorded`);
  });
  await check('join: who signed in to read sees pages and can change nothing', async () => {
    const { context, page, odd } = await openPage(browser, PHONE, home);
    await signIn(page, home, word(server, 'code to read'));
    await cookieOf(context, false, 'to read');
    for (const path of ['/today', '/foam/G1', `/piece/${piece}`, '/mixer', '/bench', '/gear', '/record']) {
      same((await page.goto(home + path)).status(), 200, path);
      same(await page.locator('main form[method=post]').count(), 0, `forms that record on ${path}`);
    }
    same((await page.goto(`${home}/pair`)).status(), 404, '/pair');
    await page.goto(`${home}/sign-out`); // the one form with this session's mark
    const status = await page.evaluate(async () => {
      const token = document.querySelector('input[name=token]').value;
      const body = new URLSearchParams({ token, key: '0123456789abcdef0123', form: 'foam-check', gross: '1931', gross_unit: 'g', moment: 'middle' });
      return (await fetch('/foam/G1', { method: 'POST', body })).status;
    });
    same(status, 403, 'a form made by hand');
    same(await timesRecorded(phone.page, 1931), 0, 'recorded');
    same(noted(odd), '', 'odd');
    await close(context);
  });
  await check('join: signed out nothing opens, not with the old session either', async () => {
    const { context, page } = phone;
    const old = await cookieOf(context, false, 'before');
    await page.goto(`${home}/sign-out`);
    await page.locator('form#sign-out .send button').tap();
    await page.waitForURL('**/sign-in');
    same((await context.cookies()).length, 0, 'cookies left');
    await opensNothing(page, home, 'signed out');
    await context.addCookies([old]);
    await opensNothing(page, home, 'with the old session');
  });
  await check('join: under another name the server says nothing of the book', async () => {
    const { context, page } = await openPage(browser, PHONE, 'http://elsewhere.example');
    for (const at of [`http://${evil}/today`, 'http://elsewhere.example/sign-in']) {
      same((await page.goto(at)).status(), 421, at);
      const told = await page.locator('body').innerText();
      ensure(!/G1|T-01|Plain|The code/.test(told), `it tells something of the book: ${told}`);
    }
    await close(context);
  });
  await close(phone.context);
  await close(browser);
  way.stop();
  await server.stop();
  run('verify', book);
}

// As a phone does that takes the certificate before it trusts it.
async function takeAuthority(address) {
  return new Promise((resolve, reject) => {
    get(`${address}/certificate.crt`, { rejectUnauthorized: false, agent: false }, (answer) => {
      let pem = '';
      answer.on('data', (d) => { pem += d; }).on('end', () => resolve(pem));
    }).on('error', reject);
  });
}

// A home whose browser trusts the authority, put there as its settings would.
function trustingHome(folder, pem) {
  const home = join(folder, 'trusting');
  const base = join(home, '.pki', 'nssdb');
  mkdirSync(base, { recursive: true });
  writeFileSync(join(home, 'authority.crt'), pem);
  execFileSync('certutil', ['-d', `sql:${base}`, '-N', '--empty-password']);
  execFileSync('certutil', ['-d', `sql:${base}`, '-A', '-t', 'C,,', '-n', 'the book', '-i', join(home, 'authority.crt')]);
  return home;
}

// The book's authority vouches for addresses of private networks; a machine that
// has none is asked as localhost, which it vouches for as well.
function vouchedHome(server) {
  const home = homeOf(server);
  const isPrivate = /^https:\/\/(10|192\.168|172\.(1[6-9]|2\d|3[01])|169\.254)\./.test(home);
  return isPrivate ? home : `https://localhost:${server.port}`;
}

async function refusal(browser, address) {
  const { context, page } = await openPage(browser, PHONE, address);
  const why = await page.goto(address).then(() => 'it opened', (e) => e.message);
  await close(context);
  return why.match(/ERR_\w+/)?.[0] ?? why;
}

async function testEncrypted(folder) {
  const { book } = joinBook(folder, 'sealed.book');
  let server = await serve(book, 0, ['--lan', '--tls']);
  const home = vouchedHome(server);
  const from = new URL(homeOf(server)).hostname;
  const way = await relay(server.port, from);
  const rules = mapped(home, way.port, `elsewhere.example:${server.port}`);
  let trusting, phone;

  await check('join: without the book\'s certificate the browser refuses', async () => {
    const bare = join(folder, 'bare');
    mkdirSync(bare);
    const browser = await launch([rules], { ...process.env, HOME: bare });
    same(await refusal(browser, `${home}/sign-in`), 'ERR_CERT_AUTHORITY_INVALID', 'the refusal');
    await close(browser);
  });
  await check('join: with the book\'s certificate a phone opens the pages without a warning', async () => {
    const pem = await takeAuthority(server.address);
    ensure(server.said().includes(new X509Certificate(pem).fingerprint256), 'the fingerprint is not the printed one');
    trusting = await launch([rules], { ...process.env, HOME: trustingHome(folder, pem) });
    phone = await openPage(trusting, { ...PHONE, serviceWorkers: 'allow' }, home);
    await signIn(phone.page, home, word(server, 'code to record'));
    await cookieOf(phone.context, true, 'encrypted');
    same(await phone.page.evaluate(() => isSecureContext), true, 'secure place');
    same(await refusal(trusting, `https://elsewhere.example:${server.port}/`), 'ERR_CERT_COMMON_NAME_INVALID', 'another name');
  });
  await check('join: the worker keeps a page; the laptop killed, it takes an entry, recorded once', async () => {
    const { page, odd } = phone;
    await page.goto(`${home}/foam/G1`);
    await page.evaluate(() => navigator.serviceWorker.ready);
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    await page.reload();
    await page.waitForFunction(async () => (await caches.match('/foam/G1')) !== undefined);
    await weighFoam(page, 1941);
    way.cut(); // the same program again after it
    await page.goto(`${home}/foam/G1`);
    ensure(/was kept on/.test(await page.locator('#outbox').innerText()), 'no kept page');
    await weighFoam(page, 1942);
    way.mend();
    await allSent(page);
    await server.kill();
    await page.goto(`${home}/foam/G1`);
    ensure(/was kept on/.test(await page.locator('#outbox').innerText()), 'no kept page');
    await weighFoam(page, 1943);
    same(await waiting(page), 1, 'entries waiting');
    server = await serve(book, server.port, ['--lan', '--tls']); // new codes
    await page.goto(`${home}/foam/G1`);
    same(new URL(page.url()).pathname, '/sign-in', 'the old session leads to');
    same(await waiting(page), 1, 'entries waiting at the sign-in');
    await page.waitForFunction(async () => !await caches.match('/foam/G1') && !await caches.match('/today'));
    await signIn(page, home, word(server, 'code to record'));
    await allSent(page);
    for (const gross of [1941, 1942, 1943]) same(await timesRecorded(page, gross), 1, `${gross} g recorded`);
    same(noted(odd), '', 'odd');
  });
  if (phone) await close(phone.context);
  if (trusting) await close(trusting);
  way.stop();
  await server.stop();
  run('verify', book);
}

export async function testJoin(folder) {
  await testPlain(folder);
  await testEncrypted(folder);
}
