// mixing.mjs - what a script adds at the mixer and to the form of mixes, and
// that each works without.
import { check, close, DESK, ensure, openPage, PHONE, run, same, unfold, visit } from './harness.mjs';

// From a list, or from a few buttons.
async function pick(page, name, value) {
  if (await page.locator(`select[name="${name}"]`).count() > 0) await page.selectOption(`select[name="${name}"]`, value);
  else await page.check(`input[name="${name}"][value="${value}"]`);
}

// Cement, water and a foam: what CODE is made of.
async function typeMix(page, code) {
  await page.fill('#mix-code', code);
  await pick(page, 'part-1', 'cement');
  await page.fill('#mix-amount-1', '1');
  await pick(page, 'part-2', 'water');
  await page.fill('#mix-amount-2', '0.5');
  await page.fill('#mix-wet', '640');
  await page.fill('#mix-foam', '70');
}

// The proportions of the same mix by the command, which no page had a hand in.
function byCommand(book) {
  const mix = JSON.parse(run('mix', book, 'Z', '--part', 'cement=1', '--part', 'water=0.5', '--wet', '640 kg/m3', '--foam', '70 g/L', '--dry-run', '--json'));
  return { litres: `${Math.round(mix.foam_volume.value * 1000)} L`, cement: mix.per_m3.find((p) => p.name === 'cement').mass.value.toFixed(1) };
}

async function testProportions(browser, home, book) {
  const want = byCommand(book);

  await check('proportions while one types', async () => {
    const { context, page, odd } = await openPage(browser, DESK, home);
    await visit(page, `${home}/mixes`);
    await page.fill('#mix-code', 'Z');
    await page.waitForFunction(() => document.querySelector('.live').textContent.includes('Not yet:'), null, { timeout: 10000 });
    await typeMix(page, 'Z');
    await page.waitForFunction((litres) => document.querySelector('.live .big strong')?.textContent === litres, want.litres, { timeout: 10000 });
    ensure((await page.textContent('.live table')).includes(want.cement), 'the cement of the command');
    same(await page.locator('.live h1').count(), 0, 'headings of a page within');
    same((await fetch(`${home}/mix/Z`)).status, 404, 'nothing is recorded');
    await page.click('button[name=try]');
    same((await fetch(`${home}/mix/Z`)).status, 404, 'nothing is recorded by the button');
    same(await page.inputValue('#mix-code'), 'Z', 'what was typed stays');
    same(odd.join('\n'), '', 'odd');
    await close(context);
  });
  await check('proportions without a script', async () => {
    const { context, page } = await openPage(browser, { ...DESK, javaScriptEnabled: false }, home);
    await visit(page, `${home}/mixes`);
    await typeMix(page, 'Z');
    await page.click('button[name=try]');
    same((await page.textContent('main .big strong')).trim(), want.litres, 'foam');
    same(await page.inputValue('#mix-amount-2'), '0.5', 'what was typed stays');
    same((await fetch(`${home}/mix/Z`)).status, 404, 'nothing is recorded');
    await close(context);
  });
  await check('what is typed by a stranger is text', async () => {
    const { context, page, odd } = await openPage(browser, DESK, home);
    await visit(page, `${home}/mixes`);
    await page.fill('#mix-wet', '<img src=x onerror=alert(1)>');
    await page.waitForFunction(() => document.querySelector('.live').textContent.includes('<img'), null, { timeout: 10000 });
    same(await page.locator('.live img').count(), 0, 'pictures made of text');
    same(odd.join('\n'), '', 'odd');
    await close(context);
  });
}

async function testStopwatch(browser, home) {
  await check('the stopwatch fills the blending time', async () => {
    const { context, page, odd } = await openPage(browser, PHONE, home);
    await visit(page, `${home}/batch/T2-01`);
    const button = page.locator('.watch button');
    await unfold(button, true);
    const box = await button.boundingBox();
    ensure(box.height >= 56, `${box.height} px`);
    await button.tap();
    same((await button.textContent()).trim(), 'Stop', 'its word while it runs');
    await page.waitForFunction(() => parseInt(document.querySelector('.watch output').textContent, 10) >= 1);
    await page.reload(); // it runs on
    await unfold(button, true);
    await page.waitForFunction(() => parseInt(document.querySelector('.watch output').textContent, 10) >= 2, null, { timeout: 5000 });
    await button.tap();
    const typed = Number(await page.inputValue('#foam-blending'));
    ensure(typed >= 2 && typed <= 20, `typed ${typed}`);
    same(await page.inputValue('select[name=blending_unit]'), 's', 'its unit');
    await page.locator('#foam button[type=submit]').tap();
    await page.waitForURL(/saved=foam/);
    ensure((await page.textContent('main')).includes('Recorded.'), 'recorded');
    same(odd.join('\n'), '', 'odd');
    await close(context);
  });
  await check('a batch that no plan names has its sheet', async () => {
    const { context, page } = await openPage(browser, PHONE, home);
    await visit(page, `${home}/mixer`);
    await page.fill('#new-batch-code', '77');
    await pick(page, 'mix', 'B');
    await pick(page, 'trial', 'T2');
    await page.locator('#new-batch .send button').tap();
    await page.waitForURL(/batch.77/);
    ensure(await page.locator('.ticks li').count() >= 2, 'something to weigh');
    await close(context);
  });
  await check('no stopwatch is shown without a script', async () => {
    const { context, page } = await openPage(browser, { ...PHONE, javaScriptEnabled: false }, home);
    await visit(page, `${home}/batch/T2-01`);
    same(await page.isVisible('.watch'), false, 'shown');
    same(await page.isVisible('#foam-blending'), true, 'the field alone');
    await close(context);
  });
}

async function testTicks(browser, home) {
  await check('ticks stay across a reload, of that batch alone', async () => {
    const { context, page, odd } = await openPage(browser, PHONE, home);
    await visit(page, `${home}/batch/T2-01`);
    const boxes = page.locator('.ticks input');
    const n = await boxes.count();
    ensure(n >= 2, `${n} to weigh`);
    await boxes.nth(0).tap();
    await page.locator('.ticks label').nth(1).tap();
    ensure((await page.textContent('.ticks [role=status]')).includes(`2/${n}`), 'it says how many are kept');
    await page.reload();
    same(await boxes.nth(0).isChecked() && await boxes.nth(1).isChecked(), true, 'still ticked');
    same(await page.locator('.ticks :checked').count(), 2, 'ticked');
    await boxes.nth(0).tap();
    await page.reload();
    same(await page.locator('.ticks :checked').count(), 1, 'ticked after one was taken back');
    const box = await boxes.nth(0).boundingBox();
    ensure(box.height >= 56 && box.width >= 56, `${box.width} x ${box.height} px`);
    await visit(page, `${home}/batch/T2-02`);
    same(await page.locator('.ticks :checked').count(), 0, 'ticked of another batch');
    same(odd.join('\n'), '', 'odd');
    await close(context);
  });
}

export async function testMixing(browser, home, book) {
  await check('own script is small', async () => {
    const html = await (await fetch(`${home}/today`)).text();
    let bytes = 0;
    for (const address of [html.match(/<script src="([^"]+)"/)[1], '/worker.js']) {
      const script = await (await fetch(home + address)).text();
      ensure(script.length > 1000, `${address}: ${script.length} bytes`);
      bytes += script.length;
    }
    ensure(bytes < 12000, `${bytes} bytes`);
  });
  await testProportions(browser, home, book);
  await testTicks(browser, home);
  await testStopwatch(browser, home);
}
