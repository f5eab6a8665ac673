// pages.mjs - every page: at both sizes, light and dark, read by axe and
// html-validate, at 320 px and 200 %, by keyboard, on paper.
import { readFileSync, writeFileSync, mkdirSync } from 'node:fs';
import { execFileSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { HtmlValidate } from 'html-validate';
import { check, close, DESK, ensure, openPage, PHONE, same, visit } from './harness.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export const addresses = ['/today', '/due', '/materials', '/mixes', '/mix/D', '/proportions?code=Z&part-1=cement&amount-1=1&part-2=water&amount-2=0.5&wet=640&wet_unit=kg/m3&foam=70&foam_unit=g/L',
  '/trial', '/mixer', '/batch/T2-01', '/photos/01', '/photo/01-1', '/foam/G1', '/gear', '/bench',
  '/piece/01-B-1', '/piece/01-B-p1', '/measure/01-B-1', '/label/01-B-1', '/labels/01', '/bend/S1', '/bent/01-B-1', '/traces', '/trace/01-B-1%20load%201', '/cure', '/cure/P1', '/rigs', '/rig/J1', '/prepare/01-B-1', '/budget', '/budget/bending_strength', '/results', '/compare', '/firm', '/next', '/choose', '/design?part=floor', '/tradeoff/wall-w', '/confirm', '/weights',
  '/building', '/duty', '/usual', '/part/floor', '/screen', '/pour', '/plan', '/watch', '/warnings', '/warning/W4',
  '/record', '/undo/last', '/search?words=B', '/import', '/recorded', '/words', '/nowhere'];

const fieldPages = ['/mixer', '/batch/T2-01', '/photos/01', '/photo/01-1', '/foam/G1', '/gear', '/bench', '/piece/01-B-1', '/piece/01-B-p1', '/measure/01-B-1', '/bend/S1', '/bent/01-B-1', '/traces', '/trace/01-B-1%20load%201', '/cure', '/cure/P1', '/rigs', '/rig/J1', '/prepare/01-B-1'];

// All rules, or those that colours alone can break.
async function violations(page, coloursAlone) {
  await page.evaluate(axe); // not as a script of the page: its policy forbids that
  const result = await page.evaluate((colours) => window.axe.run(document, {
    runOnly: colours
      ? { type: 'rule', values: ['color-contrast', 'link-in-text-block'] }
      : ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
  }), coloursAlone);
  return result.violations.map((v) => `${v.id}: ${v.nodes.slice(0, 3).map((n) => n.target.join(' ')).join(', ')}`);
}

async function contrastOfField(page) {
  const result = await page.evaluate(() => window.axe.run(document, { runOnly: { type: 'rule', values: ['color-contrast-enhanced'] } }));
  return result.violations.map((v) => v.nodes.slice(0, 3).map((n) => n.target.join(' ')).join(', '));
}

async function smallTargets(page) {
  return page.evaluate(() => {
    const small = [];
    const shown = (e) => { const r = e.getBoundingClientRect(); return r.width > 0 && r.height > 0; };
    for (const e of document.querySelectorAll('button, .button')) {
      if (shown(e) && e.getBoundingClientRect().height < 56 && !e.classList.contains('plain')) small.push(`${e.textContent.trim()} ${e.getBoundingClientRect().height}`);
    }
    for (const e of document.querySelectorAll('a, input:not([type=hidden]), select, textarea, summary')) {
      const r = e.getBoundingClientRect();
      if (shown(e) && !e.classList.contains('skip') && r.height < 48) small.push(`${e.tagName} ${e.textContent.trim().slice(0, 30)} ${r.height}`);
    }
    return small;
  });
}

async function smallTargets24(page) {
  return page.evaluate(() => [...document.querySelectorAll('button, nav a, footer a, input:not([type=hidden]), select, textarea')]
    .map((e) => [e, e.getBoundingClientRect()])
    .filter(([, r]) => r.width > 0 && r.height > 0 && (r.height < 24 || r.width < 24))
    .map(([e, r]) => `${e.tagName} ${e.textContent.trim().slice(0, 30)} ${r.width}x${r.height}`));
}

async function closeTargets(page) {
  return page.evaluate(() => {
    const boxes = [...document.querySelectorAll('button, .weights button')].map((e) => e.getBoundingClientRect()).filter((r) => r.width > 0);
    const close = [];
    for (let i = 0; i < boxes.length; i++)
      for (let k = i + 1; k < boxes.length; k++) {
        const dx = Math.max(boxes[i].left, boxes[k].left) - Math.min(boxes[i].right, boxes[k].right);
        const dy = Math.max(boxes[i].top, boxes[k].top) - Math.min(boxes[i].bottom, boxes[k].bottom);
        if (dx < 12 && dy < 12) close.push(`${Math.round(dx)}/${Math.round(dy)}`);
      }
    return close;
  });
}

// Tab through a page: what has the focus is seen, and not under a fixed bar.
async function tabWalk(page) {
  const bad = [];
  for (let i = 0; i < 25; i++) {
    await page.keyboard.press('Tab');
    const state = await page.evaluate(() => {
      const e = document.activeElement;
      if (!e || e === document.body) return null;
      const style = getComputedStyle(e);
      return { tag: e.tagName, words: (e.textContent || e.name || '').trim().slice(0, 30), outline: parseFloat(style.outlineWidth) };
    });
    if (state === null) break;
    if (!(state.outline >= 2) && state.tag !== 'MAIN') bad.push(`${state.tag} ${state.words} outline ${state.outline}`);
  }
  return bad;
}

export async function testPages(browser, home) {
  const validator = new HtmlValidate({ extends: ['html-validate:recommended'],
    rules: { 'void-style': 'off', 'no-trailing-whitespace': 'off', 'attribute-boolean-style': 'off', 'long-title': 'off', 'no-inline-style': 'error' } });

  for (const [size, options] of [['desk', DESK], ['phone', PHONE]]) {
    for (const colour of ['light', 'dark']) {
      const { context, page, odd } = await openPage(browser, { ...options, colorScheme: colour }, home);
      for (const address of addresses) {
        await check(`${size} ${colour} ${address}`, async () => {
          const answer = await visit(page, home + address);
          same(answer.status(), address === '/nowhere' ? 404 : 200, 'status');
          const html = await answer.text();
          if (size === 'desk' && colour === 'light') {
            const report = await validator.validateString(html, address);
            ensure(report.valid, report.results.flatMap((r) => r.messages.map((m) => `${m.line}: ${m.message} (${m.ruleId})`)).slice(0, 5).join('\n'));
          }
          // What is folded is looked at too.
          await page.evaluate(() => document.querySelectorAll('main details').forEach((fold) => { fold.open = true; }));
          const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
          ensure(wide <= 0, `${wide} px wider than the screen`);
          const option = (await page.innerText('main')).match(/.{0,40}(?:^|[\s("“])--(?!lan\b|tls\b)[a-z].*/m);
          ensure(!option, `an option of the command line: ${option}`);
          // photos are fetched when they come near the screen, not before the page is done
          await page.waitForFunction(() => [...document.images].every((i) => i.naturalWidth > 0), null, { timeout: 10000 }).catch(() => {});
          const images = await page.evaluate(() => [...document.images].filter((i) => i.naturalWidth === 0).map((i) => i.src));
          same(images.join(' '), '', 'pictures that did not come');
          const found = await violations(page, size === 'phone' && colour === 'dark'); // its elements were looked at in light
          same(found.join('\n'), '', 'axe');
          if (fieldPages.includes(address)) {
            same((await contrastOfField(page)).join('\n'), '', 'contrast 7:1');
            if (size === 'phone') {
              // a logger's rows (page_html.c: STACKED_CELLS_MOST) would be read by nobody
              // one below the other
              const aside = await page.evaluate(() => [...document.querySelectorAll('.scroll')]
                .filter((e) => e.scrollWidth > e.clientWidth && e.querySelectorAll('tbody :is(td, th)').length <= 160)
                .map((e) => e.ariaLabel));
              same(aside.join('; '), '', 'tables that only a swipe shows whole');
              same((await smallTargets(page)).join('\n'), '', 'targets too small');
              same((await closeTargets(page)).join('\n'), '', 'targets too close');
            }
          }
          same(odd.splice(0).join('\n'), '', 'odd');
        });
      }
      await close(context);
    }
  }
  const { context, page } = await openPage(browser, { viewport: { width: 320, height: 640 } }, home);
  for (const address of addresses) {
    await check(`320 px and 200 % ${address}`, async () => {
      await visit(page, home + address);
      const over = () => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      ensure(await over() <= 0, `${await over()} px over at 320 px`);
      await page.evaluate(() => { document.documentElement.style.fontSize = '200%'; });
      ensure(await over() <= 0, `${await over()} px over at 200 %`);
    });
    await check(`by keyboard ${address}`, async () => {
      await visit(page, home + address);
      same((await tabWalk(page)).join('\n'), '', 'focus not seen');
    });
  }
  await close(context);
}

// In Spanish, whose words are longer, and with US units beside the metric ones:
// the widest that pages get.
export async function testSpanish(browser, home) {
  const { context, page, odd } = await openPage(browser, { ...PHONE, viewport: { width: 320, height: 640 }, locale: 'es-MX' }, home);
  await context.addCookies([{ name: 'units', value: 'both', url: home }]);
  let beside = 0;
  for (const address of addresses) {
    await check(`in Spanish at 320 px ${address}`, async () => {
      await visit(page, home + address);
      same(await page.evaluate(() => document.documentElement.lang), 'es', 'language');
      const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      ensure(over <= 0, `${over} px over`);
      const sections = await page.evaluate(() => [...document.querySelectorAll('nav li')].map((e) => e.textContent.trim()));
      beside += (await page.locator('main').innerText()).includes('lb/ft3');
      ensure(sections.length === 0 || sections.includes('Palabras'), 'the sections are not in Spanish');
      same((await smallTargets24(page)).join('\n'), '', 'targets under 24 px');
      same(odd.splice(0).join('\n'), '', 'odd');
    });
  }
  await check('US units stand beside the metric ones', async () => {
    ensure(process.env.ADDRESSES || beside >= 8, `on ${beside} pages`);
    const back = await visit(page, `${home}/units/metric?back=%2Fcompare%3Fmeasure%3Dbending`);
    same(new URL(back.url()).pathname, '/compare', 'back where one was');
    ensure(!(await page.locator('main').innerText()).includes('lb/ft3'), 'US units, though not asked for');
    same(new URL((await visit(page, `${home}/units/both?back=//example.org/`)).url()).pathname, '/today', 'an address elsewhere');
  });
  await close(context);
}

export async function testTwins(home) {
  for (const address of addresses) {
    if (['/nowhere', '/recorded'].includes(address)) continue;
    await check(`data of ${address}`, async () => {
      const json = await fetch(home + address.replace(/(\?|$)/, '.json$1'));
      same(json.status, 200, 'json status');
      const data = await json.json();
      ensure(typeof data.title === 'string' && data.tables, 'title and tables');
      for (const key of Object.keys(data.tables)) {
        const csv = await fetch(`${home}${address.replace(/\?.*/, '')}.csv?table=${key}${address.includes('?') ? address.replace(/.*\?/, '&') : ''}`);
        same(csv.status, 200, `csv of ${key}`);
        const rows = (await csv.text()).split('\r\n').length - 2;
        ensure(rows >= data.tables[key].length, `rows of ${key}: ${rows} for ${data.tables[key].length}`);
      }
    });
  }
}

export async function testPaper(browser, home, folder) {
  const { context, page } = await openPage(browser, { ...DESK, colorScheme: 'dark' }, home);
  for (const address of addresses) {
    await check(`on paper ${address}`, async () => {
      await visit(page, home + address);
      const title = await page.evaluate(() => document.querySelector('h1').textContent);
      const file = join(folder, 'page.pdf');
      writeFileSync(file, await page.pdf({ preferCSSPageSize: true }));
      const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
      const flat = text.replace(/\s+/g, ' ');
      ensure(flat.includes(title.replace(/\s+/g, ' ')), `the title "${title}" is not on paper`);
      ensure(!flat.includes('Sections'), 'the navigation is on paper');
      const fonts = execFileSync('pdffonts', [file], { encoding: 'utf8' }).split('\n').slice(2).filter(Boolean);
      ensure(fonts.length > 0 && fonts.every((l) => / yes /.test(l)), 'fonts not embedded');
    });
  }
  await check('the duty sheet of the demo house is one A4 page', async () => {
    for (const locale of ['en-GB', 'es-MX']) {
      const other = await openPage(browser, { ...DESK, locale }, home);
      await visit(other.page, home + '/duty');
      const file = join(folder, 'duty.pdf');
      writeFileSync(file, await other.page.pdf({ format: 'A4', margin: { top: '12mm', bottom: '12mm', left: '12mm', right: '12mm' } }));
      const about = execFileSync('pdfinfo', [file], { encoding: 'utf8' });
      same(/^Pages:\s+(\d+)/m.exec(about)[1], '1', `pages in ${locale}`);
      await close(other.context);
    }
  });
  await close(context);
}

// What each picture of docs/pages.md shows; every address has one.
const told = {
  '/today': 'What is due, what to make, what is out of its usual range, and what the trial cannot tell yet.',
  '/due': 'Every test piece that waits, by the day its test is due.',
  '/materials': 'Materials, from a shelf of typical values or as weighed by you.',
  '/mixes': 'The mixes, and the form for a new one or a change.',
  '/mix/D': 'One mix: what goes into a cubic metre, and what it costs.',
  '/proportions': 'What a mix comes to while it is typed, before it is recorded.',
  '/trial': 'The plan of a trial and the rules of validity that were set before casting.',
  '/mixer': 'On the phone at the mixer: which batch comes next.',
  '/batch/T2-01': 'The sheet of one batch: weigh and tick off, foam and its stopwatch, wet weight, advice at once.',
  '/photos/01': 'The photos of a batch, taken with the phone or chosen from its album.',
  '/photo/01-1': 'One photo, and how it is taken out.',
  '/foam/G1': 'Weighing the foam, and whether it may be used.',
  '/gear': 'The mixer, the scale and the foam generators.',
  '/bench': 'On the phone at the bench: type or scan the marking of a piece.',
  '/label/01-B-1': 'The label of a test piece, to print: its marking and a QR picture.',
  '/labels/01': 'The labels of a whole batch on one sheet.',
  '/piece/01-B-1': 'One test piece: bend, drop, crush, weigh it, or say what became of it.',
  '/piece/01-B-p1': 'A plate that the bar was dropped on, and where it hit.',
  '/bend/S1': 'Bending: a button for each weight, the running load, and the last step taken back.',
  '/bent/01-B-1': 'A bending test that was done already, told at once.',
  '/measure/01-B-1': 'One test piece: moisture, water taken or drawn up, shortening, screws, frost, heat, and drying by a wall.',
  '/rigs': 'The rigs of the bench, and which of them is to be doubted.',
  '/rig/J1': 'One rig: what it was held against, what that means for readings, and its figures.',
  '/prepare/01-B-1': 'Before a test: the load to expect, what to lay out, what falls and what is lifted.',
  '/budget': 'What rule, weights, steps, pieces and batches each leave open in a result.',
  '/budget/bending_strength': 'What leaves one kind of result open, and whether finer reading helps.',
  '/traces': 'The file of a load cell, an accelerometer or a thermometer: brought in, and those there are.',
  '/trace/01-B-1%20load%201': 'What a logger wrote of one test: what it tells, its curves, and the file itself.',
  '/cure': 'How every batch cured, and how old that makes it.',
  '/cure/P1': 'How one batch cured: by what was said, or by a log.',
  '/results': 'What became of every piece cast, and what each came to.',
  '/compare': 'Every mix against the baseline, in sentences, pictures and tables.',
  '/firm': 'One measure under other assumptions, each batch left out in turn, and the textbook tests.',
  '/next': 'What further batches would gain against what they cost.',
  '/choose': 'The chance that each mix meets what each part asks, and the decision with its reason.',
  '/design': 'A mix searched for a part.',
  '/tradeoff/wall-w': 'The mixes that do for a part, weighed against each other.',
  '/confirm': 'Fresh batches of the chosen mix: what they should read is sealed until they are read.',
  '/weights': 'How much weight, strength, money, labour and heat count where mixes are weighed.',
  '/building': 'The parts of the building and what they must do.',
  '/duty': 'The duty sheet: what each part must do, to print and fill in before any test.',
  '/usual': 'What each kind of part is usually asked, with its source, to be set for the book.',
  '/part/floor': 'One part: its layers with the temperature through them.',
  '/screen': 'Mechanics of each part: a screening, never a proof.',
  '/pour': 'What to buy, and what was poured where.',
  '/plan': 'Which day what is poured and when forms come off.',
  '/watch': 'The same batch again and again: what left its usual range, and since when.',
  '/warnings': 'The thirty rules that warn, what each rests on and what it says now.',
  '/warning/W4': 'One rule whole: its limits, set for the book with a reason, or silenced.',
  '/record': 'The history, with an undo for each entry.',
  '/undo/last': 'What undoing an entry would put back, before it is done.',
  '/search?words=B': 'Whatever has a name or a remark, found by its words.',
  '/import': 'A folder of CSV files, looked at before it is stored.',
  '/recorded': 'An entry that was sent twice is in the book once.',
  '/words': 'Each word of these pages, explained.',
};

const pictureName = (address) => `${address.slice(1).replace(/[?/].*$/, '') + (/-p1$/.test(address) ? '-dents' : /^\/(mix|batch|piece|measure|part|rig|budget|cure)\//.test(address) ? '-one' : '')}.png`;

function toldOf(address) {
  return told[address] ?? told[address.replace(/\?.*/, '')] ?? told[address.replace(/^.bend.*/, '/bend/S1')];
}

// docs/pages.md and its pictures: desk pages at 1100 pixels, field pages on a
// phone of 360 by 640.
export async function takePictures(browser, home, folder) {
  mkdirSync(folder, { recursive: true });
  const text = ['# The pages', '',
    'Every page of the demo house, as `make pictures` takes them. Names, figures and',
    'dates are those of the invented trial in `demo/`.', ''];
  for (const [size, options] of [['desk', DESK], ['phone', { ...PHONE, deviceScaleFactor: 1 }]]) {
    const { context, page } = await openPage(browser, options, home);
    text.push(size === 'desk' ? '## At the table' : '## At the mixer and at the bench', '');
    for (const address of addresses) {
      const isField = fieldPages.includes(address) || address.startsWith('/bend/');
      if (address === '/nowhere' || (size === 'phone') !== isField) continue;
      await visit(page, home + address);
      await page.screenshot({ path: join(folder, pictureName(address)) });
      const title = await page.evaluate(() => document.querySelector('h1').textContent);
      text.push(`### ${title}`, '', `${toldOf(address)} \`${address}\``, '', `![${title}](pages/${pictureName(address)})`, '');
    }
    await close(context);
  }
  writeFileSync(join(folder, '..', 'pages.md'), `${text.join('\n').trimEnd()}\n`);
}

// A form's own address, a calendar for another program, switches, bytes as they
// were brought in.
const noPages = ['/', '/batch', '/plan/calendar.ics', '/language/', '/units/', '/picture/', '/trace-file/'];

// No page is left out of all this, nor of docs/pages.md.
export async function testCoverage(root) {
  await check('every route is visited', async () => {
    const routes = [...readFileSync(join(root, 'src/web/route_names.h'), 'utf8').matchAll(/WEB_ROUTE\(\s*"([^"]+)",\s*(\w+)/g)]
      .filter(([, path, get]) => get !== 'web_none' && !path.startsWith('/chart/') && !noPages.includes(path)).map(([, path]) => path);
    const missing = routes.filter((path) => !addresses.some((a) => (path.endsWith('/') ? a.startsWith(path) : a.split('?')[0] === path)));
    ensure(routes.length > 20, `only ${routes.length} routes read`);
    same(missing.join(' '), '', 'routes without a test');
  });
  await check('every page is shown in docs/pages.md', async () => {
    const text = readFileSync(join(root, 'docs/pages.md'), 'utf8');
    const missing = addresses.filter((a) => a !== '/nowhere' && (!toldOf(a) || !text.includes(`(pages/${pictureName(a)})`)));
    same(missing.join(' '), '', 'not shown; make pictures');
  });
}
