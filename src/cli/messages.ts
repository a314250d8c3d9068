import { type DisplayUnit, formatIssue, type Issue } from '../index.ts';

const LABEL = { error: 'Error', warning: 'Warning', note: 'Note' } as const;

/** Writes issues to stderr, one a line, errors first; lengths in the unit of the person. */
export function printIssues(issues: readonly Issue[], unit: DisplayUnit = 'mm'): void {
  for (const severity of ['error', 'warning', 'note'] as const) {
    for (const issue of issues) {
      if (issue.severity === severity)
        process.stderr.write(`${LABEL[severity]}: ${formatIssue(issue, unit)}\n`);
    }
  }
}

/** A count with its word: `1 board`, `2 boards`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** A table as text: the first column to the left, the others to the right. */
export function textTable(rows: readonly (readonly string[])[]): string {
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
