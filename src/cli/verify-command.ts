import path from 'node:path';
import { counted, formatLength, lengthsInText, readLayout, verifyLayout } from '../index.ts';
import { ExitCode } from './exit-code.ts';
import { readText } from './files.ts';
import { printIssues } from './messages.ts';

/**
 * `fretlay verify`: checks a layout file; the verdict goes to stdout, every breach to stderr, lengths in mm and inches.
 *
 * @returns the exit code: incomplete when a rule is broken
 */
export async function verifyCommand(file: string, options: { readonly json?: boolean }): Promise<number> {
  const layout = readLayout(await readText(file), path.basename(file));
  const found = verifyLayout(layout);
  if (options.json) {
    process.stdout.write(`${JSON.stringify(found, null, 2)}\n`);
  } else {
    printIssues(found.breaches, 'both');
    const distance = (mm: number | undefined) => (mm === undefined ? 'none to measure' : inBothUnits(mm));
    const { figures, setContents } = layout;
    const stands = setContents.some(({ restEdge }) => restEdge);
    const onEdge = stands ? '; none on the straight edge for parts that stand on it' : '';
    process.stdout.write(
      [
        found.ok ? 'Right: no rule broken.' : `Wrong: ${counted(found.breaches.length, 'rule')} broken.`,
        `Least distance between parts: ${distance(found.leastDistance)} (asked for ${inBothUnits(layout.kerf + layout.clearance)})`,
        `Least distance to an edge or defect: ${distance(found.leastEdgeDistance)} (asked for ${inBothUnits(layout.edgeMargin)}${onEdge})`,
        `${figures.completeSets} of ${layout.sets} sets complete on ${counted(figures.boards, 'board')}, yield ${(100 * figures.yield).toFixed(1)} %`,
        '',
      ].join('\n'),
    );
  }
  return found.ok ? ExitCode.done : ExitCode.incomplete;
}

/** A distance of so many mm in both units: a layout file does not say in which its maker reads. */
function inBothUnits(mm: number): string {
  return lengthsInText(formatLength(mm, 'mm', 4), 'both');
}
