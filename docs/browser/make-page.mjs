/**
 * Makes the example page: one file, `out/fretlay.html`, with the built library and the demo inside, that works
 * when opened from the disk. Run `npm run page`.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';

const root = fileURLToPath(new URL('../..', import.meta.url));
const read = (name) => readFileSync(path.join(root, name), 'utf8');

/** The code of a worker with everything it needs, as one classic script. */
async function bundled(entry) {
  const bundle = await rolldown({ input: path.join(root, entry), platform: 'browser', logLevel: 'silent' });
  const { output } = await bundle.generate({ format: 'iife', minify: true });
  return output[0].code;
}

const built = {
  jobWorker: await bundled('docs/browser/job-worker.js'),
  searchWorker: await bundled('dist/nesting/worker-main.js'),
  demo: { job: JSON.parse(read('fixtures/lake-shore/job.json')), pattern: read('fixtures/lake-shore/pattern.svg') },
};
// Nothing in the code may end the element early, so no "<" is left in it.
const data = JSON.stringify(built).replaceAll('<', '\\u003c');
const html = read('docs/browser/index.html')
  .replace('id="built">', () => `id="built">${data}`)
  .replace('id="script">', () => `id="script">\n${read('docs/browser/page.js')}`);
const file = process.argv[2] ?? path.join(root, 'out/fretlay.html');
mkdirSync(path.dirname(file), { recursive: true });
writeFileSync(file, html);
process.stdout.write(`${path.relative('.', file)}: ${Math.round(html.length / 1024)} KB\n`);
