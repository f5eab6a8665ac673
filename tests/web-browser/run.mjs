// run.mjs [--pictures FOLDER] [GROUP ...] - the browser tests, all or some groups:
// reading (coverage, newcomer, pages, spanish) and writing (twins, paper, later,
// kept, join, mixing, logger, labels, outbox, hostile, journeys); ends with "N
// passed, N failed".
import { execFileSync } from 'node:child_process';
import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import { close, demoBook, freshFolder, giveUp, launch, program, remove, run, serve, tally } from './harness.mjs';
import { addresses, takePictures, testCoverage, testPages, testPaper, testSpanish, testTwins } from './pages.mjs';
import { testNoEnglish } from './spanish.mjs';
import { testLabels } from './labels.mjs';
import { testMixing } from './mixing.mjs';
import { testLogger } from './logger.mjs';
import { testHostile } from './hostile.mjs';
import { testJoin } from './join.mjs';
import { testJourneys } from './journey.mjs';
import { testKept } from './kept.mjs';
import { testAcceptance, testNewcomer, testPlainWords, testSameFigures, testTapsOnly } from './newcomer.mjs';
import { testLater, testOutbox } from './outbox.mjs';

const RUN_MOST_S = 20 * 60; // four times what a run takes

setTimeout(giveUp, RUN_MOST_S * 1000, 'the run', RUN_MOST_S).unref();

const folder = freshFolder();
const book = demoBook(folder);
const pictures = process.argv[2] === '--pictures' ? process.argv[3] : null;

// A beam that hangs in the rig, for the bending page, and a batch that is planned.
run('batch', book, '31', '--mix', 'B', '--wet', '722 kg/m3', '--on', '2026-05-01');
run('trial', book, 'T2', '--baseline', 'B', '--mix', 'P', '--batches', '1', '--pieces', '1');
const labels = JSON.parse(run('pieces', book, '31', '--form', 'T1', '--count', '2', '--json')).pieces;
execFileSync(program, ['bend', book, labels[0], '--span', '600 mm', '--hanger', '1.2 kg', '--weights', '10 kg, 5 kg, 2 kg'], { input: '1\n2\n' });

// Rigs: one for beams, one jack that a known load was put on.
run('rig', book, 'R1', '--test', 'bending', '--span', '600 mm', '--strap', '50 mm', '--hanger', '1.2 kg');
run('rig', book, 'J1', '--test', 'crushing', '--ram', '40 mm', '--gauge-step', '0.5 bar');
run('rig', book, 'J1', '--dead-load', '312 kg', '--gauge', '24 bar', '--gauge-zero', '0.5 bar', '--on', '2026-05-01');
run('rig', book, 'J1', '--check-piece', 'brick', '--gauge', '82 bar', '--on', '2026-05-01');

for (let i = 0; i < addresses.length; i++) addresses[i] = addresses[i].replace('/bend/S1', `/bend/${labels[0]}`);

// ADDRESSES=/gear,/next: those alone, while one is being built.
if (process.env.ADDRESSES) addresses.splice(0, Infinity, ...process.env.ADDRESSES.split(','));

const copy = join(folder, 'copy.book');
copyFileSync(book, copy);
const server = await serve(book);

// A browser of its own for each group, so that one that fell takes no other
// with it.
async function withBrowser(work) {
  const browser = await launch();
  try {
    await work(browser, server.address);
  } finally {
    await close(browser);
  }
}

const reading = {
  coverage: () => testCoverage(new URL('../..', import.meta.url).pathname),
  newcomer: async () => {
    await testTapsOnly(new URL('../..', import.meta.url).pathname);
    await testAcceptance(new URL('../..', import.meta.url).pathname);
    await testPlainWords(server.address);
    await testSameFigures(server.address);
    await withBrowser((browser) => testNewcomer(browser, folder));
  },
  pages: () => withBrowser(testPages),
  spanish: () => withBrowser(async (browser, home) => {
    await testSpanish(browser, home);
    await testNoEnglish(browser, home, addresses, () => serve(copy));
  }),
};
const writing = { // paper and data first, of the book as it is
  twins: () => testTwins(server.address),
  paper: () => withBrowser((browser, home) => testPaper(browser, home, folder)),
  later: () => withBrowser((browser, home) => testLater(browser, home, folder)),
  kept: () => withBrowser((browser) => testKept(browser, folder)),
  join: () => testJoin(folder), // browsers of its own
  mixing: () => withBrowser((browser, home) => testMixing(browser, home, book)),
  logger: () => withBrowser((browser, home) => testLogger(browser, home, folder)),
  labels: () => withBrowser((browser, home) => testLabels(browser, home, book, folder)),
  outbox: () => withBrowser((browser, home) => testOutbox(browser, home, book, 200)),
  hostile: () => withBrowser((browser, home) => testHostile(browser, home, book)),
  journeys: () => withBrowser((browser) => testJourneys(browser, folder)),
};
const groups = { ...reading, ...writing };
const sets = { reading: Object.keys(reading), writing: Object.keys(writing) };

try {
  if (pictures) {
    await withBrowser((browser, home) => takePictures(browser, home, pictures));
  } else {
    const asked = process.argv.slice(2).flatMap((name) => sets[name] ?? [name]);
    for (const name of asked) if (!groups[name]) throw new Error(`${name}: no such group`);
    for (const [group, test] of Object.entries(groups)) {
      if (asked.length > 0 && !asked.includes(group)) continue;
      const began = Date.now();
      await test();
      console.log(`${group}: ${Math.round((Date.now() - began) / 1000)} s`);
    }
  }
} finally {
  await server.stop();
  remove(folder);
}
process.exit(pictures ? 0 : tally());
