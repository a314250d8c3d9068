import { counted } from '../issues/counted.ts';
import { plainLine } from '../issues/plain-text.ts';
import type { BoardPlan, CutPlan } from '../model/cut-plan.ts';
import { figure } from '../units/figure.ts';
import { type DisplayUnit, MM_PER_UNIT } from '../units/length.ts';
import { PACE_THICKNESS, paceMetres } from './time/blade-life.ts';
import { hardnessOf } from './wood-facts.ts';

/** How lengths are written: the maker's unit for what the blade travels and for thickness. */
interface Written {
  readonly travel: (mm: number) => string;
  readonly thickness: (mm: number) => string;
  readonly wood: string;
}

const WRITTEN: Readonly<Record<DisplayUnit, Written>> = {
  mm: {
    travel: (mm) => `${figure(mm / 1000)} m`,
    thickness: (mm) => figure(mm),
    wood: 'metres in 19.05 mm wood',
  },
  in: {
    travel: (mm) => `${figure(mm / MM_PER_UNIT.ft)} ft`,
    thickness: (mm) => figure(mm / MM_PER_UNIT.in),
    wood: 'feet in 3/4 in wood',
  },
};

/**
 * A cut plan as lines of text: board by board the lengths and counts that hours and blades are reckoned from, then
 * their sums as they stand in the costs.
 *
 * @param unit what the maker works in
 */
export function tracePlan(
  { boards, blades, holes, sharpTurns, cutLength, leadInLength }: CutPlan,
  unit: DisplayUnit,
): string {
  const written = WRITTEN[unit];
  const { travel, wood } = written;
  return [
    `Sawing, board by board: (lines + lead-ins) x thickness x the root of hardness, as ${wood} of 1000 lbf`,
    ...boards.map((board) => boardLine(board, written)),
    `all: ${travel(cutLength)} of lines, ${travel(leadInLength)} of lead-ins, ${counted(holes, 'hole')}, ${counted(sharpTurns, 'sharp corner')}`,
    ...blades.map(
      ({ blade, sawn, worn }) =>
        `${blade.name} saws ${travel(sawn)} and ${figure(worn.likely)} wear out, between ${figure(worn.low)} and ${figure(worn.high)}`,
    ),
  ]
    .map(plainLine)
    .join('\n');
}

function boardLine(
  { board, species, thickness, copies, cutLength, leadInLength, holes, cuts }: BoardPlan,
  { travel, thickness: thick }: Written,
): string {
  const hardness = hardnessOf(species);
  const each = paceMetres(cutLength + leadInLength, thickness, hardness);
  return [
    `${board}: (${travel(cutLength)} + ${travel(leadInLength)}) x ${thick(thickness)} / ${thick(PACE_THICKNESS)}`,
    ` x root(${hardness} / 1000)${copies === 1 ? '' : ` x ${copies} boards`} = ${travel(1000 * copies * each)};`,
    ` ${counted(cuts.length, 'cut')}, ${counted(holes.length, 'hole')}`,
  ].join('');
}
