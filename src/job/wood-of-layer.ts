import type { Issue } from '../issues/issue.ts';
import { sameSpecies } from '../model/same-wood.ts';
import type { Board } from '../model/stock.ts';
import { woodSteps } from '../stock/wood-choice.ts';
import { formatThickness, formatThin } from '../units/distances.ts';
import type { Job, JobLayer } from './job-schema.ts';
import { woodMeant } from './wood-meant.ts';

/** The wood of a layer, thickness in mm; or the field of the layer that has to be mended, and what is wrong with it. */
export type WoodChoice =
  | { readonly ok: true; readonly wood: { readonly species: string; readonly thickness: number } }
  | { readonly ok: false; readonly field: 'species' | 'thickness'; readonly issue: WoodProblem };

type WoodProblem = Pick<Issue, 'kind' | 'message' | 'expected' | 'received' | 'remedy'>;

/** Species and thickness of a layer: as stated, else those of the boards when they leave no choice. */
export function woodOfLayer(rules: JobLayer, boards: readonly Board[], job: Job): WoodChoice {
  const kinds = [...new Set(boards.map(({ species }) => species))];
  const species =
    rules.species ?? (kinds.every((kind) => sameSpecies(kind, kinds[0])) ? kinds[0] : undefined);
  if (species === undefined) {
    return refuse('species', {
      kind: 'species-missing',
      message: 'the boards are of several species and the layer does not say which it is cut from',
      expected: `one of ${kinds.map((kind) => `"${kind}"`).join(', ')}`,
      remedy: 'Say the "species" of the layer.',
    });
  }
  const ofSpecies = boards.filter((board) => sameSpecies(board.species, species));
  if (ofSpecies.length === 0) {
    const meant = woodMeant(species, kinds);
    return refuse('species', {
      kind: 'species-unknown',
      message: `there is no board of this species${meant === undefined ? '' : `; did you mean "${meant}"?`}`,
      expected: `one of ${kinds.map((kind) => `"${kind}"`).join(', ')}, or a board of it under "boards"`,
      received: `"${species}"`,
      ...(meant === undefined
        ? {}
        : { remedy: 'Write the wood of a layer by the name that its boards have.' }),
    });
  }
  return thicknessOfLayer(rules.thickness, species, ofSpecies, job);
}

/**
 * The thickness of a layer of known species, mm: as stated, else that of the boards when all have the same.
 *
 * @param boards those of the species, one at least
 */
function thicknessOfLayer(
  stated: number | undefined,
  species: string,
  boards: readonly Board[],
  { thicknessTolerance: tolerance, unit }: Job,
): WoodChoice {
  const thicknesses = [...new Set(boards.map(({ thickness }) => thickness))];
  const thickness = stated ?? (thicknesses.length === 1 ? thicknesses[0] : undefined);
  const inWords = (mm: number) => formatThickness(mm, unit);
  if (thickness === undefined) {
    return refuse('thickness', {
      kind: 'thickness-missing',
      message: 'the boards differ in thickness and the layer does not say which it is cut from',
      expected: `the thickness of a board of ${species}: ${thicknesses.map(inWords).join(' or ')}`,
      remedy: 'Say the "thickness" of the layer.',
    });
  }
  const thickest = Math.max(...thicknesses);
  if (thickest < thickness - tolerance) {
    return refuse('thickness', {
      kind: 'thickness-unmatched',
      message: 'every board of the species is too thin for the layer',
      expected: `at most ${inWords(thickest + tolerance)}: the thickest board of ${species} has ${inWords(thickest)}`,
      received: inWords(thickness),
      remedy: 'Add a thicker board, or state the thickness the layer can be made of.',
    });
  }
  if (woodSteps(boards, species, thickness, tolerance).length === 0) {
    // Of what is thick enough only sheets are refused.
    const thickSheets = thicknesses.filter((each) => each > thickness);
    return refuse('thickness', {
      kind: 'thickness-unmatched',
      message: 'no board of the species has the thickness of the layer, and sheets are not planed or resawn',
      expected: `${inWords(thickness)}, give or take ${formatThin(tolerance, unit)}`,
      received: `sheets of ${species} of ${thickSheets.map(inWords).join(' and ')}`,
      remedy: 'Take sheets of that thickness, or state the thickness of the sheets for the layer.',
    });
  }
  return { ok: true, wood: { species, thickness } };
}

function refuse(field: 'species' | 'thickness', issue: WoodProblem): WoodChoice {
  return { ok: false, field, issue };
}
