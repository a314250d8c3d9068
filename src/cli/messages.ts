import {
  FretlayError,
  formatIssue,
  type Issue,
  plainLine,
  type TextUnit,
  toldTogether,
  worstFirst,
} from '../index.ts';
import { ExitCode } from './exit-code.ts';

const LABEL = { error: 'Error', warning: 'Warning', note: 'Note' } as const;

/**
 * Writes issues to stderr, errors first, one a line, and those alike of many elements together on one; lengths in the unit of
 * the person, or in both.
 */
export function printIssues(issues: readonly Issue[], unit: TextUnit = 'mm'): void {
  for (const issue of worstFirst(toldTogether(issues)))
    process.stderr.write(`${LABEL[issue.severity]}: ${formatIssue(issue, unit)}\n`);
}

/**
 * Runs a command, or what is left of it once the unit of the person is known, and writes why it is refused when it is.
 *
 * @param unit unit of the lengths in the messages
 * @returns exit code
 */
export async function refusedIn(unit: TextUnit, command: () => Promise<number>): Promise<number> {
  try {
    return await command();
  } catch (error) {
    if (!(error instanceof FretlayError)) throw error;
    printIssues(error.issues, unit);
    return ExitCode.refused;
  }
}

/** A table as text, a line for each row: the first column to the left, the others to the right. */
export function textTable(table: readonly (readonly string[])[]): string {
  const rows = table.map((row) => row.map(plainLine));
  const widths = rows[0].map((_, column) => Math.max(...rows.map((row) => row[column].length)));
  return rows
    .map((row) =>
      row
        .map((cell, column) => (column === 0 ? cell.padEnd(widths[0]) : cell.padStart(widths[column])))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
