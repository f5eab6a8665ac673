// harness.mjs - a fresh book, the program serving it, browsers, and a count of
// what passed.
import { spawn, execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { deflateSync } from 'node:zlib';
import { chromium } from 'playwright-core';

export const program = process.env.FOAMWRIGHT;
export const demo = process.env.FOAMWRIGHT_DEMO;
export const DESK = { viewport: { width: 1100, height: 900 } };
export const PHONE = {
  viewport: { width: 360, height: 640 }, deviceScaleFactor: 3,
  isMobile: true, hasTouch: true,
};

const CHECK_MOST_S = 300; // about ten times the longest on two busy cores
const CLOSE_MOST_S = 10;

let passed = 0;
let failed = 0;

// What was answered within so many seconds, or what stands in its place.
export function within(seconds, answer, otherwise) {
  let timer;
  const late = new Promise((resolve) => { timer = setTimeout(resolve, seconds * 1000, otherwise); });
  return Promise.race([answer, late]).finally(() => clearTimeout(timer));
}

// A browser that no longer answers would be waited for without end, by what waits
// now and by each check that follows: it ends the run.
export function giveUp(name, seconds) {
  failed++;
  console.log(`FAIL ${name}: not done after ${seconds} s; what follows was not run`);
  process.exit(tally());
}

async function inTime(name, fn) {
  const late = Symbol('late');
  if (await within(CHECK_MOST_S, fn(), late) === late) giveUp(name, CHECK_MOST_S);
}

export async function check(name, fn) {
  try {
    await inTime(name, fn);
    passed++;
  } catch (e) {
    failed++;
    console.log(`FAIL ${name}: ${String(e.message).split('\n').slice(0, 600).join('\n     ')}`);
  }
}

export function ensure(truth, words) {
  if (!truth) throw new Error(words);
}

export function same(got, want, words) {
  if (got !== want) throw new Error(`${words}: got ${JSON.stringify(got)}, wanted ${JSON.stringify(want)}`);
}

export function tally() {
  console.log(`${passed} passed, ${failed} failed`);
  return failed === 0 ? 0 : 1;
}

export function run(...args) {
  return execFileSync(program, args, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
}

export function freshFolder() {
  return mkdtempSync(join(tmpdir(), 'foamwright-web-'));
}

export function emptyBook(folder, name = 'house.book') {
  const book = join(folder, name);
  run('new', book);
  return book;
}

// A PNG of one shade (W3C, third edition; its checksum is that of annex D).
function pngChunk(name, bytes) {
  const all = Buffer.concat([Buffer.from(name), bytes]);
  let sum = 0xffffffff;
  for (const byte of all) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit++) sum = (sum >>> 1) ^ (sum & 1 ? 0xedb88320 : 0);
  }
  const chunk = Buffer.alloc(all.length + 8);
  chunk.writeUInt32BE(bytes.length, 0);
  all.copy(chunk, 4);
  chunk.writeUInt32BE((sum ^ 0xffffffff) >>> 0, all.length + 4);
  return chunk;
}

function grayPicture(width, height) {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head[8] = 8; // bits of a shade; the rest is 0: gray
  const rows = Buffer.alloc((width + 1) * height, 0xa0);
  for (let y = 0; y < height; y++) rows[y * (width + 1)] = 0;
  return Buffer.concat([Buffer.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10]),
    pngChunk('IHDR', head), pngChunk('IDAT', deflateSync(rows)), pngChunk('IEND', Buffer.alloc(0))]);
}

// A load cell and a dial on a beam that cracks and sags on; invented.
function beamLog() {
  const rows = ['Time (s);Load (N);Sag (mm)'];
  for (let i = 0; i < 400; i++) {
    const load = i < 260 ? 0.55 * i : 62 + 6 * Math.sin(i / 9) - 0.1 * (i - 260);
    rows.push([(i * 0.25).toFixed(2), load.toFixed(1), (i * 0.0031).toFixed(4)].join(';').replaceAll('.', ','));
  }
  return `${rows.join('\n')}\n`;
}

export function demoBook(folder) {
  const book = emptyBook(folder);
  run('import', book, demo);
  const photo = join(dirname(book), 'slurry.png');
  writeFileSync(photo, grayPicture(96, 64));
  run('photo', book, '01', photo, '--remark', 'a smooth slurry');
  const log = join(dirname(book), 'beam.csv');
  writeFileSync(log, beamLog());
  run('trace', book, log, '--load', '--piece', '01-B-1');
  run('cure', book, 'P1', '--temperature', '13 degC', '--to', '2026-04-11', '--keeping', 'wrapped');
  run('gear', book, '--mixer', '90 L', '--scale-step', '20 g', '--spare', '10%');
  run('generator', book, 'G1', '--metering', 'seconds', '--target', '70 g/L', '--vessel-empty', '612 g', '--vessel-full', '10.9 kg', '--scale-step', '5 g', '--rate', '25 L/min', '--dilution', '40');
  run('form', book, 'T1', '--shape', 'beam', '--inner', '100 mm x 75 mm x 700 mm');
  run('decide', book, 'floor', 'D', '--because', 'strongest, and the floor carries most');
  run('decide', book, 'wall-w', 'B', '--because', 'ordinary and cheap');
  return book;
}

const serving = new Set();
process.on('exit', () => serving.forEach((child) => child.kill('SIGKILL')));

// The program serving a book; its address is its first line, and with --lan the
// codes follow, which said() has.
export async function serve(book, port = 0, flags = []) {
  const child = spawn(program, ['serve', book, '--port', String(port), ...flags], { stdio: ['ignore', 'pipe', 'pipe'] });
  serving.add(child);
  const last = flags.includes('--lan') ? /code to read: .*\n/ : /\n/;
  let errors = '';
  let out = '';
  child.stderr.on('data', (d) => { errors += d; });
  const address = await new Promise((resolve, reject) => {
    child.stdout.on('data', (d) => {
      out += d;
      if (last.test(out)) resolve(out.split('\n')[0].replace(/\/$/, ''));
    });
    child.on('exit', (code) => reject(new Error(`serve ended with ${code}: ${errors}`)));
  });
  return {
    address,
    port: Number(address.split(':')[2]),
    said: () => out,
    stop: () => new Promise((resolve) => {
      child.removeAllListeners('exit');
      child.on('exit', (code) => resolve(code));
      child.kill('SIGTERM');
    }),
    kill: () => new Promise((resolve) => {
      child.removeAllListeners('exit');
      child.on('exit', () => resolve());
      child.kill('SIGKILL');
    }),
  };
}

export async function launch(flags = [], env = process.env) {
  return chromium.launch({
    executablePath: '/usr/bin/chromium',
    env,
    args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage', '--disable-quic',
      '--no-first-run', '--disable-background-networking',
      '--disable-component-update', '--disable-sync', ...flags],
  });
}

// Closes a browser or one person's part of it.  Seen once in about a hundred times:
// a browser that throws a page away while it is on its way to another never says
// that it is done.  So its pages are led away first, and no answer is waited for
// without end; nothing is asked of what is left behind.
export async function close(opened) {
  for (const page of opened.pages?.() ?? [])
    await within(CLOSE_MOST_S, page.goto('about:blank').catch(() => {}));
  if (await within(CLOSE_MOST_S, opened.close().then(() => true), false)) return;
  console.log('a browser did not close and was left behind');
}

// A page that notes whatever should not happen on it; without the worker, which
// has its own tests.
export async function openPage(browser, options, home) {
  const context = await browser.newContext({ serviceWorkers: 'block', ...options });
  const page = await context.newPage();
  const odd = [];
  page.on('pageerror', (e) => odd.push(`script: ${e.message}`));
  page.on('console', (m) => { if (m.type() === 'error' && !/status of (4|5)|ERR_INTERNET|ERR_CONNECTION|ERR_FAILED/.test(m.text())) odd.push(`console: ${m.text()}`); });
  page.on('request', (r) => { if (!r.url().startsWith(home) && !r.url().startsWith('data:')) odd.push(`foreign request: ${r.url()}`); });
  return { context, page, odd };
}

// Goes to an address and waits past "is being computed", which comes back by
// itself.
export async function visit(page, address) {
  for (let i = 0; ; i++) {
    try {
      const answer = await page.goto(address, { waitUntil: 'load' });
      if (await page.locator('meta[http-equiv=refresh]').count() === 0) return answer;
    } catch (e) {
      if (i >= 60 || !/interrupted|ERR_ABORTED|context was destroyed/.test(e.message)) throw e;
    }
    if (i >= 60) throw new Error(`${address} is still being computed`);
    await page.waitForTimeout(500);
  }
}

// Opens the folds about a field or form, as a person does: outermost first.
export async function unfold(field, tap = false) {
  const folds = field.locator('xpath=ancestor::details[not(@open)]/summary');
  while (await folds.count() > 0) {
    if (tap) await folds.first().tap(); else await folds.first().click();
  }
}

export function remove(folder) {
  rmSync(folder, { recursive: true, force: true });
}
