// labels.mjs - the labels of a whole batch on one sheet, each read back from
// paper by another program (zbarimg, Debian zbar-tools).
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { check, DESK, ensure, openPage, run, same, visit } from './harness.mjs';

const SHEET = 21; // labels of one
const MARGIN_MM = 10;
const DOTS = 192; // an inch, two to a CSS pixel
const inDots = (mm) => (mm / 25.4) * DOTS;

// The label at a place of the sheet, as a phone is held to one at a time.
function readBack(pdf, folder, box) {
  const dots = (pixels) => String(Math.round((pixels / 96) * DOTS));
  execFileSync('pdftoppm', ['-r', String(DOTS), '-gray', '-singlefile', '-png',
    '-x', String(Math.round(inDots(MARGIN_MM) + Number(dots(box.x)))), '-y', String(Math.round(inDots(MARGIN_MM) + Number(dots(box.y)))),
    '-W', dots(box.width), '-H', dots(box.height), pdf, join(folder, 'label')]);
  return execFileSync('zbarimg', ['--raw', '--quiet', '-Sdisable', '-Sqrcode.enable', join(folder, 'label.png')],
    { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).trim();
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
    await context.close();
  });
}
