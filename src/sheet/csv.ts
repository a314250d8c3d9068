import Papa from 'papaparse';
import { plainText } from '../issues/plain-text.ts';

/**
 * The only door to papaparse: tables as comma-separated values (RFC 4180: quotes doubled, lines end in CRLF). Text
 * that a spreadsheet would take for a formula (it begins with = + - @ or a tab) gets an apostrophe in front.
 */

/** A cell: text, or a number that stays one. */
export type CsvCell = string | number;

/** A table as CSV text, its heads in the first line. Numbers are rounded to `decimals` digits behind the point. */
export function writeCsv(
  heads: readonly string[],
  rows: readonly (readonly CsvCell[])[],
  decimals: number,
): string {
  const data = rows.map((row) => row.map((cell) => cleaned(cell, decimals)));
  const csv = Papa.unparse({ fields: [...heads], data }, { newline: '\r\n', escapeFormulae: true });
  return `${csv}\r\n`;
}

function cleaned(cell: CsvCell, decimals: number): CsvCell {
  return typeof cell === 'number'
    ? Number(cell.toFixed(decimals))
    : plainText(cell).replace(/\s+/g, ' ').trim();
}
