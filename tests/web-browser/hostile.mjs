// hostile.mjs - forms with missing, absurd, hostile and doubled fields; a script
// in a name is text wherever it stands.
import { check, close, DESK, ensure, openPage, run, same } from './harness.mjs';

const script = '<script>alert(1)</script>"\'&=1+2';

// The page itself: on a busy machine "is being computed" (202) comes first.
async function pageText(home, address) {
  for (let i = 0; ; i++) {
    const answer = await fetch(home + address);
    if (answer.status !== 202 || i >= 60) return answer.text();
    await new Promise((resolve) => { setTimeout(resolve, 500); });
  }
}

async function tokens(home, address) {
  const html = await pageText(home, address);
  return {
    token: /name="token" value="([0-9a-f]+)"/.exec(html)[1],
    key: /name="key" value="([0-9a-f]+)"/.exec(html)[1],
  };
}

async function post(home, address, fields, from = address) {
  const body = new URLSearchParams();
  const { token, key } = await tokens(home, from);
  body.append('token', token);
  body.append('key', key);
  for (const [name, value] of fields) body.append(name, value);
  return fetch(home + address, { method: 'POST', body, redirect: 'manual' });
}

const forms = [['/materials', 'material'], ['/mixes', 'mix'], ['/trial', 'trial'],
  ['/gear', 'gear'], ['/gear', 'generator'], ['/foam/G1', 'foam-check'],
  ['/batch', 'new-batch', '/mixer'], ['/batch/01', 'wet'], ['/batch/01', 'weighed'],
  ['/batch/01', 'foam'], ['/batch/01', 'around'], ['/batch/01', 'settling'],
  ['/bench', 'pieces'], ['/bench', 'form'], ['/piece/01-B-1', 'drop'],
  ['/piece/01-B-1', 'crush'], ['/piece/01-B-1', 'weigh'], ['/piece/01-B-1', 'fate'],
  ['/rigs', 'new'], ['/rig/J1', 'rig'], ['/rig/J1', 'load'], ['/rig/J1', 'weight'],
  ['/measure/01-B-1', 'drying'], ['/measure/01-B-1', 'moisture'], ['/measure/01-B-1', 'soak'], ['/measure/01-B-1', 'rise'],
  ['/measure/01-B-1', 'shrinkage'], ['/measure/01-B-1', 'screw'], ['/measure/01-B-1', 'frost'], ['/measure/01-B-1', 'hotbox'],
  ['/choose', 'decide-wall-w'], ['/building', 'part'], ['/part/floor', 'part'], ['/pour', 'pour'],
  ['/record', 'withdraw'], ['/import', 'import'], ['/undo/last', 'undo', '/record']];

const absurd = ['', ' ', '0', '-1', '1e999', 'NaN', 'inf', '1,234', '99999999999999999999', '12 parsecs', '\u202e12 kg', script, "'; DROP TABLE batch; --", 'x'.repeat(20000)];

export async function testHostile(browser, home, book) {
  for (const [address, form, from] of forms) {
    await check(`absurd values in ${form} at ${address}`, async () => {
      const html = await pageText(home, from || address);
      const own = html.split('<form ').find((f) => f.startsWith(`id="${form}"`)) || '';
      const names = [...new Set([...own.matchAll(/name="([^"]+)"/g)].map((m) => m[1]))].filter((n) => !['token', 'key', 'form'].includes(n));
      if (form !== 'undo') ensure(names.length > 0, 'the form has no fields');
      for (const value of absurd) {
        const answer = await post(home, address, [['form', form], ...names.map((n) => [n, value])], from || address);
        const text = await answer.text();
        ensure([303, 404, 409, 413, 422].includes(answer.status), `${JSON.stringify(value.slice(0, 20))} gave ${answer.status}`);
        ensure(!text.includes('<script>alert'), 'a script came through');
        ensure(!/\bnan\b/i.test(text.replace(/&quot;NaN&quot;|"NaN"/g, '').replace(/value="NaN"/g, '')) || value === 'NaN', 'NaN printed');
      }
      const twice = await post(home, address, [['form', form], ...names.flatMap((n) => [[n, '1'], [n, '2']])], from || address);
      ensure([303, 404, 409, 422].includes(twice.status), `doubled fields gave ${twice.status}`);
    });
  }
  await check('a script in a mix\'s name is text on pages, pictures and in CSV', async () => {
    const answer = await post(home, '/mixes', [['form', 'mix'], ['code', 'X'], ['name', script], ['like', 'B'], ['wet', '650'], ['wet_unit', 'kg/m3']]);
    same(answer.status, 303, `the mix was refused: ${(await answer.text()).replace(/<[^>]+>/g, ' ').slice(0, 300)}`);
    const { context, page, odd } = await openPage(browser, DESK, home);
    let alarms = 0;
    page.on('dialog', (d) => { alarms++; d.dismiss(); });
    for (const address of ['/mixes', '/mix/X', '/mixer', '/trial', '/compare', '/batch/X']) {
      await page.goto(home + address);
      ensure(!(await page.content()).includes('<script>alert'), `${address} holds the script`);
    }
    ensure((await (await fetch(`${home}/mix/X`)).text()).includes('&lt;script&gt;'), 'the name is not shown');
    const csv = await (await fetch(`${home}/mixes.csv?table=mixes`)).text();
    ensure(csv.includes('"'), 'CSV without quotes');
    same(alarms, 0, 'dialogs');
    same(odd.join('\n'), '', 'odd');
    await close(context);
  });
  await check('a formula in a name is led by an apostrophe in CSV', async () => {
    await post(home, '/mixes', [['form', 'mix'], ['code', 'Y'], ['name', '=cmd|calc'], ['like', 'B'], ['wet', '650'], ['wet_unit', 'kg/m3']]);
    const csv = await (await fetch(`${home}/mixes.csv?table=mixes`)).text();
    ensure(csv.includes("\"'=cmd|calc\""), csv.slice(-300));
  });
  await check('one entry sent fifty times is recorded once', async () => {
    const { token, key } = await tokens(home, '/foam/G1');
    const body = new URLSearchParams({ token, key, form: 'foam-check', gross: '1.2345', gross_unit: 'kg', moment: 'end' });
    const answers = await Promise.all(Array.from({ length: 50 }, () => fetch(`${home}/foam/G1`, { method: 'POST', body, redirect: 'manual' })));
    ensure(answers.every((a) => a.status === 303), answers.map((a) => a.status).join(' '));
    const rows = (await (await fetch(`${home}/foam/G1.json`)).json()).tables.checks;
    same(rows.filter((r) => Math.abs(r.gross - 1.2345) < 1e-9).length, 1, 'times recorded');
    const other = new URLSearchParams({ token, key, form: 'foam-check', gross: '1.3', gross_unit: 'kg', moment: 'end' });
    same((await fetch(`${home}/foam/G1`, { method: 'POST', body: other, redirect: 'manual' })).status, 409, 'the same key, other content');
  });
  await check('what must not be answered is not', async () => {
    const { token, key } = await tokens(home, '/foam/G1');
    const form = { form: 'foam-check', gross: '1.3', gross_unit: 'kg' };
    const send = (fields, headers = {}) => fetch(`${home}/foam/G1`, { method: 'POST', body: new URLSearchParams(fields), redirect: 'manual', headers });
    same((await send({ ...form, key })).status, 403, 'no token');
    same((await send({ ...form, key, token: '0'.repeat(32) })).status, 403, 'a wrong token');
    same((await send({ ...form, token })).status, 400, 'no key');
    same((await send({ ...form, token, key }, { Origin: 'http://evil.example' })).status, 403, 'another origin');
    same((await fetch(`${home}/foam/G1`, { method: 'POST', body: '{}', headers: { 'Content-Type': 'application/json' } })).status, 415, 'JSON sent');
    same((await fetch(`${home}/today`, { method: 'DELETE' })).status, 405, 'DELETE');
    same((await fetch(`${home}/compare`, { method: 'POST', body: new URLSearchParams({ token, key }) })).status, 405, 'a deed where there is none');
    const big = new URLSearchParams({ token, key, remark: 'x'.repeat(300000) });
    same((await fetch(`${home}/foam/G1`, { method: 'POST', body: big })).status, 413, 'too large');
    same((await fetch(`${home}/%zz`)).status, 400, 'a bad percent sign');
    same((await fetch(`${home}/%00`)).status, 400, 'a NUL');
    same((await fetch(`${home}/static/..%2f..%2fetc%2fpasswd`)).status, 404, 'a path out');
  });
  run('verify', book);
}
