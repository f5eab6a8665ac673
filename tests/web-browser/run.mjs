// run.mjs [--pictures FOLDER] [GROUP ...] - the browser tests, all or some
// groups (pages, twins, paper, outbox, hostile, journeys); ends with "N passed,
// N failed".
import { execFileSync } from 'node:child_process';
import { demoBook, freshFolder, launch, program, remove, run, serve, tally } from './harness.mjs';
import { addresses, takePictures, testCoverage, testPages, testPaper, testSpanish, testTwins } from './pages.mjs';
import { testHostile } from './hostile.mjs';
import { testJourneys } from './journey.mjs';
import { testLater, testOutbox } from './outbox.mjs';

const folder = freshFolder();
const book = demoBook(folder);
const pictures = process.argv[2] === '--pictures' ? process.argv[3] : null;

// A beam that hangs in the rig, for the bending page.
run('batch', book, '31', '--mix', 'B', '--wet', '722 kg/m3', '--on', '2026-05-01');
const labels = JSON.parse(run('pieces', book, '31', '--form', 'T1', '--count', '2', '--json')).pieces;
execFileSync(program, ['bend', book, labels[0], '--span', '600 mm', '--hanger', '1.2 kg', '--weights', '10 kg, 5 kg, 2 kg'], { input: '1\n2\n' });
for (let i = 0; i < addresses.length; i++) addresses[i] = addresses[i].replace('/bend/S1', `/bend/${labels[0]}`);

const server = await serve(book);
const browser = await launch();
try {
  if (pictures) {
    await takePictures(browser, server.address, pictures);
  } else {
    const asked = process.argv.slice(2);
    const wants = (group) => asked.length === 0 || asked.includes(group);
    if (wants('coverage')) await testCoverage(new URL('../..', import.meta.url).pathname);
    if (wants('pages')) await testPages(browser, server.address);
    if (wants('spanish')) await testSpanish(browser, server.address);
    if (wants('twins')) await testTwins(server.address);
    if (wants('paper')) await testPaper(browser, server.address, folder);
    if (wants('later')) await testLater(browser, server.address, folder);
    if (wants('outbox')) await testOutbox(browser, server.address, book, 200);
    if (wants('hostile')) await testHostile(browser, server.address, book);
    if (wants('journeys')) await testJourneys(browser, folder);
  }
} finally {
  await browser.close();
  await server.stop();
  remove(folder);
}
process.exit(pictures ? 0 : tally());
