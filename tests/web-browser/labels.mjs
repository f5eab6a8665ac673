// labels.mjs - the labels of a whole batch on one sheet, each read back from
// paper by another program (zbarimg, Debian zbar-tools).
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { check, close, DESK, ensure, openPage, run, same, visit } from './harness.mjs';

const SHEET = 21; // labels of one
const MARGIN_MM = 10;
const DOTS = 192; // an inch, two to a CSS pixel
const inDots = (mm) => (mm / 25.4) * DOTS;

// The label at a place of the sheet, as a phone is held to one at a time.
function readPicture(picture) {
  return execFileSync('zbarimg', ['--raw', '--quiet', '-Sdisable', '-Sqrcode.enable', picture],
    { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).trim();
}

function readBack(pdf, folder, box) {
  const dots = (pixels) => String(Math.round((pixels / 96) * DOTS));
  execFileSync('pdftoppm', ['-r', String(DOTS), '-gray', '-singlefile', '-png',
    '-x', String(Math.round(inDots(MARGIN_MM) + Number(dots(box.x)))), '-y', String(Math.round(inDots(MARGIN_MM) + Number(dots(box.y)))),
    '-W', dots(box.width), '-H', dots(box.height), pdf, join(folder, 'label')]);
  return readPicture(join(folder, 'label.png'));
}

// Concrete on the label: a spot over 15 in a hundred of the code (without its quiet
// zone), in turn at the lower right corner, the right side, the lower side and the
// middle - not on one of the three corners by which a reader finds the code.
async function blot(page) {
  await page.evaluate(() => {
    const side = Math.sqrt(0.15);
    const spots = [[1 - side, 1 - side], [1 - side, 0.35], [0.35, 1 - side], [0.4, 0.4]];
    [...document.querySelectorAll('.labels li')].forEach((label, i) => {
      const whole = label.querySelector('img').getBoundingClientRect();
      const quiet = whole.width * (4 / 41); // modules, of version 4
      const picture = { left: whole.left + quiet, top: whole.top + quiet, width: whole.width - 2 * quiet, height: whole.height - 2 * quiet };
      const [left, top] = spots[i % spots.length];
      const spot = document.createElement('div');
      Object.assign(spot.style, {
        position: 'absolute', background: '#777',
        left: `${picture.left + scrollX + left * picture.width}px`,
        top: `${picture.top + scrollY + top * picture.height}px`,
        width: `${side * picture.width}px`, height: `${side * picture.height}px`,
      });
      document.body.append(spot);
    });
  });
}

// Where each label stands within the margins of the first sheet.
async function places(page) {
  await page.setViewportSize({ width: Math.floor(((210 - 2 * MARGIN_MM) / 25.4) * 96), height: 1000 });
  await page.emulateMedia({ media: 'print' });
  return page.evaluate(() => [...document.querySelectorAll('.labels li')].map((e) => {
    const r = e.getBoundingClientRect();
    return { x: r.left + scrollX, y: r.top + scrollY, width: r.width, height: r.height, words: e.querySelector('strong').textContent };
  }));
}

export async function testLabels(browser, home, book, folder) {
  await check('every label of a sheet is read back', async () => {
    run('batch', book, '41', '--mix', 'B', '--trial', 'T2');
    const pieces = JSON.parse(run('pieces', book, '41', '--form', 'T1', '--count', String(SHEET), '--json')).pieces;
    const { context, page, odd } = await openPage(browser, DESK, home);
    await visit(page, `${home}/labels/41`);
    await page.waitForFunction(() => [...document.images].every((i) => i.complete));
    const pdf = join(folder, 'labels.pdf');
    const margin = `${MARGIN_MM}mm`;
    writeFileSync(pdf, await page.pdf({ format: 'A4', margin: { top: margin, right: margin, bottom: margin, left: margin } }));
    ensure(/Pages:\s+1\n/.test(execFileSync('pdfinfo', [pdf], { encoding: 'utf8' })), 'more than one sheet');
    const boxes = await places(page);
    same(boxes.map((b) => b.words).sort().join(' '), [...pieces].sort().join(' '), 'labels');
    for (const box of boxes) same(readBack(pdf, folder, box), box.words, `the picture beside ${box.words}`);
    const words = execFileSync('pdftotext', [pdf, '-'], { encoding: 'utf8' });
    ensure(!/Baseline/.test(words), 'the mix is not on the labels');
    same(odd.join('\n'), '', 'odd');
    await close(context);
  });
  await check('a label with a blot over 15 in a hundred of it is read', async () => {
    const { context, page } = await openPage(browser, { ...DESK, deviceScaleFactor: 3 }, home);
    await visit(page, `${home}/labels/41`);
    await page.waitForFunction(() => [...document.images].every((i) => i.complete));
    await blot(page);
    const labels = page.locator('.labels li');
    for (let i = 0; i < await labels.count(); i++) {
      const picture = join(folder, 'blotted.png');
      await labels.nth(i).screenshot({ path: picture });
      same(readPicture(picture), await labels.nth(i).locator('strong').innerText(), `label ${i}`);
    }
    await close(context);
  });
}
