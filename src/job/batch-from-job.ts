import { both, number, record, words } from '../issues/checks.ts';
import { counted } from '../issues/counted.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { LENGTH } from '../issues/number-issue.ts';
import type { Batch, Demand, PlacingRules } from '../model/batch.ts';
import { MOST_COPIES } from '../model/limits.ts';
import type { Pattern } from '../model/pattern.ts';
import { patternCheck } from '../model/pattern-checks.ts';
import { sameSpecies } from '../model/same-wood.ts';
import type { Board } from '../model/stock.ts';
import { pinIssues } from '../nesting/pin-issues.ts';
import { withTakingCosts } from '../stock/taking.ts';
import { woodSteps } from '../stock/wood-choice.ts';
import { formatThickness, formatThin } from '../units/distances.ts';
import { boardFromEntry } from './board-from-entry.ts';
import { copiesInSet, cutIssues, rulesOf } from './cut-in-batch.ts';
import { jobCheck } from './job-check.ts';
import type { Job, JobLayer } from './job-schema.ts';
import { keepIssues } from './keep-issues.ts';
import { kerfIssues } from './kerf-issues.ts';
import { logIssues } from './log-issues.ts';
import { pinsOfJob } from './pins.ts';
import { datesOf } from './rack.ts';
import { reachIssues } from './reach-issues.ts';
import { repeatedIdIssues } from './repeated-ids.ts';
import { restEdgeIssues } from './rest-edge-issues.ts';
import { roomIssues } from './room-issues.ts';
import { shareIssues } from './share-issues.ts';
import { finishedSizeIssues, sizeIssues } from './size-issues.ts';
import { speciesIssues } from './species-issues.ts';
import { stackIssues } from './stack-issues.ts';
import { smallBlankIssues, stockInBlanks } from './stock-in-blanks.ts';
import { thicknessIssues } from './thickness-issues.ts';
import { topEdgeIssues } from './top-edge-issues.ts';

/** What a job and its pattern make together. */
export interface JoinedJob {
  readonly batch: Batch;
  /** The boards for sale, ripped for the saw as those at hand are. */
  readonly offers: readonly Board[];
  /** Ids of the boards and offers whose entries say how many strips they are ripped into: the throat asks for the others. */
  readonly stripsStated: readonly string[];
  /** What does not fit together. */
  readonly issues: readonly Issue[];
}

/** The pattern, and how far its outlines may be off the curves: so much is added to every gap. */
const toleranceCheck = record({ tolerance: number(LENGTH) }, 'Hand in the pattern of `readPattern`.');

/**
 * Joins a job and its pattern into the batch to lay out; what does not fit together comes back as issues.
 *
 * @throws FretlayError for what is no job as `readJob` gives it, or no pattern
 */
export function batchFromJob(job: Job, pattern: Pattern, file: string): JoinedJob {
  throwOnErrors([
    ...jobCheck('job', job),
    ...both(patternCheck, toleranceCheck)('pattern', pattern),
    ...words('Name the job file, for messages.')('file', file),
  ]);
  const issues: Issue[] = [];
  const known = [...job.boards, ...job.forSale].map(boardFromEntry);
  issues.push(...repeatedIdIssues(job, file));
  reportUnknownLayers(job, pattern, file, issues);
  const demands = pattern.layers.flatMap((layer) => {
    const rules = rulesOf(job, layer.name);
    const cut = layer.parts.filter(({ name }) => copiesInSet(rules, name) > 0);
    // Where nothing of a layer is cut its wood need not be at hand any more.
    if (cut.length === 0) return [];
    const choice = woodOfLayer(rules, known, job);
    if (!choice.ok) {
      const where = { file, field: `layers.${layer.name}.${choice.field}` };
      issues.push({ severity: 'error', ...choice.issue, where });
      return [];
    }
    const { wood } = choice;
    return cut.map(
      (part): Demand => ({
        part: part.name,
        layer: layer.name,
        region: part.region,
        veins: part.veins,
        copiesPerSet: copiesInSet(rules, part.name),
        ...wood,
        rules: placingRules(rules),
        ...(rules.stacked ? { stack: stackFor(wood.thickness, job.saw.stackHeight) } : {}),
      }),
    );
  });
  // A layer whose wood is in doubt is in no demand either: that has been told.
  if (issues.every(({ severity }) => severity !== 'error'))
    issues.push(...cutIssues(job, pattern, demands, file));
  const { throat, longest } = job.saw;
  const boards = takenInOrder(job, stockInBlanks(job, job.boards, demands));
  const offers = stockInBlanks(job, job.forSale, demands);
  issues.push(...smallBlankIssues([...boards, ...offers], job.unit, file));
  const pins = pinsOfJob(job, demands, boards);
  const batch: Batch = {
    sets: job.sets,
    demands,
    boards,
    kerf: job.kerf,
    clearance: job.clearance,
    edgeMargin: job.edgeMargin,
    thicknessTolerance: job.thicknessTolerance,
    outlineTolerance: pattern.tolerance,
    keep: job.keep,
    ...(pins.length === 0 ? {} : { pins }),
    ...(job.setsTogether ? { setsTogether: true } : {}),
    crosscutKerf: job.crosscutKerf,
    ...(throat === undefined && longest === undefined ? {} : { reach: { throat, longest } }),
  };
  // Where the wood of a layer is in doubt its parts are not in the batch yet, and every pin of them would be told too.
  if (issues.every(({ severity }) => severity !== 'error'))
    issues.push(...pinIssues(batch, { file, field: 'pinned' }));
  // Boards for sale count here: a part that only one of those holds is no mistake, but a reason to buy it.
  const withForSale = { ...batch, boards: known };
  const woods = demands.map(({ species }) => species);
  issues.push(
    ...roomIssues(withForSale, job.unit, file),
    ...kerfIssues(job, file),
    ...reachIssues(job, file),
    ...stackIssues(job, demands, file),
    ...restEdgeIssues(demands, file),
    ...topEdgeIssues([...boards, ...offers], demands, file),
    ...batchSizeIssues(batch, file),
    ...speciesIssues(known, woods, file),
    ...keepIssues(job, boards, woods, file),
    ...shareIssues(job, file),
    ...logIssues(job, file),
    ...thicknessIssues([...job.boards, ...job.forSale], demands, job, file),
  );
  // A board too small for anything is told as an error already: one message for one slip.
  if (issues.every(({ severity }) => severity !== 'error')) issues.push(...sizeIssues(known, job, file));
  // Of a refusal only errors are told, and this is the one to mend: before all the parts that it makes too large.
  if (issues.some(({ kind }) => kind === 'part-larger-than-boards'))
    issues.unshift(
      ...finishedSizeIssues(job, file).map((issue) => ({ ...issue, severity: 'error' as const })),
    );
  const entries = [...job.boards, ...job.forSale];
  const stripsStated = entries.flatMap(({ id, strips }) => (strips === undefined ? [] : [id]));
  return { batch, offers, stripsStated, issues };
}

/** Refuses a batch of more copies than can be laid out in a reasonable time. */
function batchSizeIssues({ demands, sets }: Batch, file: string): Issue[] {
  const perSet = demands.reduce((sum, { copiesPerSet }) => sum + copiesPerSet, 0);
  if (perSet * sets <= MOST_COPIES) return [];
  return [
    {
      kind: 'batch-too-large',
      severity: 'error',
      message: `the batch has more copies than are laid out at once`,
      expected: `at most ${MOST_COPIES} copies`,
      received: `${counted(sets, 'set')} of ${counted(perSet, 'copy', 'copies')}`,
      remedy:
        perSet > MOST_COPIES
          ? 'Leave layers out, or lower "copiesPerSet".'
          : `Split it into batches of at most ${counted(Math.floor(MOST_COPIES / perSet), 'set')}.`,
      where: { file, field: 'sets' },
    },
  ];
}

/** Boards at hand with what taking each counts: keepers first when there is a rack, else the cheapest. */
function takenInOrder({ boards: entries, rack, take }: Job, boards: readonly Board[]): Board[] {
  const order = take ?? (rack === undefined ? 'cheapest' : 'keepers first');
  return withTakingCosts(boards, order, datesOf(entries));
}

/** Boards of a thickness that make a stack no higher than `height`; at least one. */
function stackFor(thickness: number, height: number): number {
  return Math.max(1, Math.floor((height + 1e-6) / thickness));
}

function placingRules({ grain, grainTolerance, turnOver, restEdge }: JobLayer): PlacingRules {
  return { grain, grainTolerance, turnOver, restEdge };
}

function reportUnknownLayers(job: Job, pattern: Pattern, file: string, issues: Issue[]): void {
  const names = pattern.layers.map(({ name }) => name);
  for (const name of Object.keys(job.layers)) {
    if (names.includes(name)) continue;
    const leftOut = pattern.leftOut?.find((layer) => layer.name === name);
    const isAlike = names.some((known) => known.normalize('NFC') === name.normalize('NFC'));
    const misspelt = isAlike ? WRITTEN_ANOTHER_WAY : MISSPELT;
    issues.push({
      kind: 'layer-unknown',
      severity: 'error',
      message: `the job gives rules for a layer that ${leftOut === undefined ? 'the pattern does not have' : LEFT_OUT[leftOut.why].what}`,
      expected: `one of ${names.map((known) => `"${known}"`).join(', ')}`,
      received: `"${name}"`,
      remedy: leftOut === undefined ? misspelt : LEFT_OUT[leftOut.why].remedy,
      where: { file, field: `layers.${name}` },
    });
  }
}

const MISSPELT = 'Write the name as the drawing has it: capitals count.';

/** An accent may be one character with its letter, or one of its own: no eye sees a difference. */
const WRITTEN_ANOTHER_WAY =
  'One of them looks the same, but has its accents stored in another way: copy the name out of the drawing.';

/** Layers that the drawing has and the pattern has not. */
const LEFT_OUT = {
  'switched off': {
    what: 'is switched off in the drawing',
    remedy: 'Show it in the drawing program if it is to be cut; else take its rules out of the job.',
  },
  'no parts': {
    what: 'holds nothing that can be cut',
    remedy: 'Draw the outline of every part in it as a closed path; else take its rules out of the job.',
  },
} as const;

/** The wood of a layer, thickness in mm; or the field of the layer that has to be mended, and what is wrong with it. */
type WoodChoice =
  | { readonly ok: true; readonly wood: { readonly species: string; readonly thickness: number } }
  | { readonly ok: false; readonly field: 'species' | 'thickness'; readonly issue: WoodProblem };

type WoodProblem = Pick<Issue, 'kind' | 'message' | 'expected' | 'received' | 'remedy'>;

/** Species and thickness of a layer: as stated, else those of the boards when they leave no choice. */
function woodOfLayer(
  rules: JobLayer,
  boards: readonly Board[],
  { thicknessTolerance: tolerance, unit }: Job,
): WoodChoice {
  const refuse = (field: 'species' | 'thickness', issue: WoodProblem): WoodChoice => ({
    ok: false,
    field,
    issue,
  });
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
    return refuse('species', {
      kind: 'species-unknown',
      message: 'there is no board of this species',
      expected: `one of ${kinds.map((kind) => `"${kind}"`).join(', ')}, or a board of it under "boards"`,
      received: `"${species}"`,
    });
  }
  const thicknesses = [...new Set(ofSpecies.map(({ thickness }) => thickness))];
  const thickness = rules.thickness ?? (thicknesses.length === 1 ? thicknesses[0] : undefined);
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
  if (woodSteps(ofSpecies, species, thickness, tolerance).length === 0) {
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
