/**
 * Makes the pictures of the documentation from the results of `npm run demo`: run that first, then
 * `npm run pictures`.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Resvg } from '@resvg/resvg-js';

const root = fileURLToPath(new URL('..', import.meta.url));
const sheet = readFileSync(`${root}out/lake-shore/sheets/Basswood-A-1.svg`, 'utf8');
const picture = new Resvg(sheet, { fitTo: { mode: 'width', value: 1600 }, background: 'white' }).render();
writeFileSync(`${root}docs/images/lake-shore-sheet.png`, picture.asPng());
