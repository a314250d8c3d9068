import { counted } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import { sameSpecies } from '../model/same-wood.ts';
import { formatThickness } from '../units/distances.ts';
import type { JobBoard } from './board-schema.ts';
import type { Job } from './job-schema.ts';

/** Wood of which the thickness is known, mm. */
interface KnownWood {
  readonly species: string;
  readonly thickness: number;
}

/**
 * That a board of which nobody says how thick it is counts as one of the usual thickness: a warning where layers or other
 * boards of its wood are of another, for a keeper of 1/4 in would be resawn on paper; a note to a maker who works in inches,
 * for whom 19 mm is no thickness at all. Where everything is usual, nothing is told.
 *
 * @param entries boards at hand and for sale as they were read
 * @param layers wood of the layers
 */
export function thicknessIssues(
  entries: readonly JobBoard[],
  layers: readonly KnownWood[],
  { unit, thicknessTolerance }: Pick<Job, 'unit' | 'thicknessTolerance'>,
  file: string,
): Issue[] {
  const assumed = entries.filter(({ isThicknessAssumed }) => isThicknessAssumed === true);
  const known = [...layers, ...entries.filter((entry) => !assumed.includes(entry))];
  const othersOf = ({ species, thickness }: JobBoard) =>
    known.filter(
      (wood) =>
        sameSpecies(wood.species, species) && Math.abs(wood.thickness - thickness) > thicknessTolerance,
    );
  const doubtful = assumed.filter((entry) => othersOf(entry).length > 0);
  const usual = unit === 'in' ? assumed.filter((entry) => !doubtful.includes(entry)) : [];
  const told = (severity: 'warning' | 'note', [first, ...more]: readonly JobBoard[]): Issue[] => {
    if (first === undefined) return [];
    const others = [...new Set(othersOf(first).map(({ thickness }) => formatThickness(thickness, unit)))];
    return [
      {
        kind: 'thickness-assumed',
        severity,
        message: `nothing says how thick this board is${more.length === 0 ? '' : `, nor ${counted(more.length, 'more board')}`}: ${formatThickness(first.thickness, unit)} is taken`,
        ...(others.length === 0
          ? {}
          : { expected: `its thickness: other ${first.species} of this job has ${others.join(' and ')}` }),
        remedy: 'State "thickness" as measured, or "nominal" as it is sold.',
        where: { file, board: first.id },
      },
    ];
  };
  return [...told('warning', doubtful), ...told('note', usual)];
}
