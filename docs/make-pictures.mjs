/**
 * Makes the pictures of the documentation from the results of `npm run demo`: run that first, then
 * `npm run pictures`.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Resvg } from '@resvg/resvg-js';
import { boardPages, checkPattern, drawCheckPicture, pageToSvg, readJob, readLayout, readPattern } from 'fretlay';

const root = fileURLToPath(new URL('..', import.meta.url));
const read = (name) => readFileSync(`${root}${name}`, 'utf8');

/** Writes a drawing as `docs/images/NAME.png`, `width` pixels across. */
function picture(name, svg, width) {
  const image = new Resvg(svg, { fitTo: { mode: 'width', value: width }, background: 'white' }).render();
  writeFileSync(`${root}docs/images/${name}.png`, image.asPng());
}

const job = readJob(read('fixtures/lake-shore/job.json'));
const svg = read('fixtures/lake-shore/pattern.svg');
const { pattern } = readPattern(svg, job.pattern);
const layout = readLayout(read('out/lake-shore/layout.json'));
const pages = boardPages(layout, { job: 'job.json', unit: 'in', kerf: job.kerf, paper: 'letter' });

// The figures are laid on basswood; on which boards, the search decides.
const sheet = readdirSync(`${root}out/lake-shore/sheets`).find((name) => name.startsWith('Basswood'));

picture('lake-shore-pattern', svg, 900);
picture('lake-shore-check', drawCheckPicture(pattern, checkPattern(pattern)), 900);
picture('lake-shore-sheet', read(`out/lake-shore/sheets/${sheet}`), 1600);
picture('lake-shore-page', pageToSvg(pages[pages.length - 1]), 700);
