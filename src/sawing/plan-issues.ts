import { counted } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { Blade, BladeUse, BoardPlan } from '../model/cut-plan.ts';
import type { Layout } from '../model/layout.ts';
import { speciesKey, woodsAmong } from '../model/same-wood.ts';
import type { PlannedBoard } from './plan-board.ts';
import { MIDDLING_HARDNESS, WOODS, woodFacts } from './wood-facts.ts';

/** What the plan cannot mend and a person should know before sawing. */
export function planIssues(layout: Layout, boards: readonly BoardPlan[], uses: readonly BladeUse[]): Issue[] {
  return [...kerfIssues(layout, uses), ...speciesIssues(boards), ...boards.flatMap(leadInIssues)];
}

/** A kerf that differs by more than this from the kerf of the layout contradicts it, mm: two test cuts differ by less. */
const TEST_CUTS_WITHIN = 0.05;
/** The same for a typical kerf that is narrower: blades of one number differ from maker to maker, and saws by their run-out, mm. */
const TYPICAL_WITHIN = 0.25;

/**
 * Whether the kerf the layout was made with is that of the blades that will saw it. A wider blade takes the
 * difference off the parts; a narrower one wastes wood between them. The widest blade decides: finer ones need less.
 */
function kerfIssues({ kerf }: Layout, uses: readonly BladeUse[]): Issue[] {
  const wider = uses
    .filter(({ blade }) => blade.kerf - kerf > TEST_CUTS_WITHIN + 1e-9)
    .map(({ blade }) => widerBlade(blade, kerf));
  if (wider.length > 0 || uses.length === 0) return wider;
  const { blade } = uses.reduce((widest, use) => (use.blade.kerf > widest.blade.kerf ? use : widest));
  const spare = kerf - blade.kerf;
  if (spare <= (blade.kerfMeasured ? TEST_CUTS_WITHIN : TYPICAL_WITHIN)) return [];
  const widest = uses.length === 1 ? 'the blade' : 'the widest blade of the plan,';
  return [
    {
      kind: 'kerf-above-blade',
      severity: blade.kerfMeasured ? 'warning' : 'note',
      message: `the layout is made for a kerf of ${millimetres(kerf)}, but ${widest} ${blade.name} saws ${kerfOf(blade)}: parts lie ${millimetres(spare)} farther apart than they need`,
      remedy: `${blade.kerfMeasured ? 'State' : 'Measure a test cut with it and state'} that kerf in the job, or let "kerf": "blade" take it from the blade.`,
    },
  ];
}

function widerBlade(blade: Blade, kerf: number): Issue {
  return {
    kind: 'kerf-below-blade',
    severity: 'warning',
    message: `the layout is made for a kerf of ${millimetres(kerf)}, but the blade ${blade.name} saws ${kerfOf(blade)}: parts come out smaller than drawn`,
    remedy: 'Measure a test cut, and lay out again with that kerf or a finer blade.',
  };
}

function kerfOf({ kerf, kerfMeasured }: Blade): string {
  return `${millimetres(kerf)} (${kerfMeasured ? 'measured' : 'typical, not measured'})`;
}

function millimetres(length: number): string {
  return `${length.toFixed(2)} mm`;
}

function speciesIssues(boards: readonly BoardPlan[]): Issue[] {
  const unknown = woodsAmong(boards.map(({ species }) => species)).filter(
    (name) => woodFacts(name) === undefined,
  );
  return unknown.map((species) => ({
    kind: 'species-without-facts',
    severity: 'note',
    message: `the table of woods does not have "${species}": a middling hardness of ${MIDDLING_HARDNESS} lbf is taken`,
    remedy: `Times and blades for it are rougher than the others.${namedMoreClosely(species)}`,
  }));
}

/** What to write for a wood that the table has several of: an `oak` may be a red or a white one. */
function namedMoreClosely(species: string): string {
  const kinds = WOODS.flatMap(({ name }) => (name.endsWith(` ${speciesKey(species)}`) ? [`"${name}"`] : []));
  return kinds.length === 0
    ? ''
    : ` The table has ${kinds.join(' and ')}: write which it is, for the layer and for its boards.`;
}

/** A lead-in that cannot run straight: a person has to steer between the parts. */
function leadInIssues({ board, cuts }: BoardPlan): Issue[] {
  const barred = cuts.filter(({ leadInClear }) => !leadInClear).map(({ number }) => number);
  if (barred.length === 0) return [];
  return [
    {
      kind: 'lead-in-barred',
      severity: 'note',
      message: `no straight way through the waste leads to ${
        barred.length === 1
          ? `cut ${barred[0]}: its lead-in winds between parts and is`
          : `cuts ${barred.join(', ')}: their lead-ins wind between parts and are`
      } longer than counted`,
      remedy: 'Steer between the parts, or drill a hole for the blade in the waste beside the line.',
      where: { board },
    },
  ];
}

/** Small parts that no tab holds though one is asked for: what the maker relies on has to be there. */
export function hangingIssues(planned: readonly PlannedBoard[]): Issue[] {
  const all = planned.flatMap(({ plan, hanging }) => hanging.map((hangs) => ({ hangs, board: plan.board })));
  const issues: Issue[] = [];
  const loose = all.filter(({ hangs }) => hangs === 'by nothing');
  const boards = [...new Set(loose.map(({ board }) => board))];
  if (loose.length > 0)
    issues.push({
      kind: 'tab-holds-nothing',
      severity: 'warning',
      message: `${counted(loose.length, 'small part')} of ${all.length} on ${boards.join(', ')} ${loose.length === 1 ? 'comes' : 'come'} loose in spite of the tab: the cuts beside ${loose.length === 1 ? 'it leave' : 'them leave'} no wood that it could hold by`,
      remedy: 'Tape or glue these boards to a carrier below, or lay out with more "clearance".',
    });
  const bare = all.filter(({ hangs }) => hangs === 'without a tab');
  if (bare.length > 0)
    issues.push({
      kind: 'tab-too-long',
      severity: 'warning',
      message: `${counted(bare.length, 'small part')} of ${all.length} ${bare.length === 1 ? 'has' : 'have'} no tab: it would be more than a fifth of the outline`,
      remedy: 'Shorten "tab" under "work".',
    });
  return issues;
}
