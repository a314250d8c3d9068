import type { BoardPlan, CutPlan } from '../model/cut-plan.ts';
import { figure } from '../units/figure.ts';
import { PACE_THICKNESS, paceMetres } from './blade-life.ts';
import { hardnessOf } from './wood-facts.ts';

/**
 * A cut plan as lines of text: board by board the lengths and counts that hours and blades are reckoned from, then
 * their sums as they stand in the costs.
 */
export function tracePlan({ boards, blades, holes, sharpTurns, cutLength, leadInLength }: CutPlan): string {
  return [
    'Sawing, board by board: (lines + lead-ins) x thickness x the root of hardness, as metres in 19 mm wood of 1000 lbf',
    ...boards.map(boardLine),
    `all: ${metres(cutLength)} m of lines, ${metres(leadInLength)} m of lead-ins, ${holes} holes, ${sharpTurns} sharp corners`,
    ...blades.map(
      ({ blade, sawn, worn }) =>
        `${blade.name} saws ${metres(sawn)} m and ${figure(worn.likely)} wear out, between ${figure(worn.low)} and ${figure(worn.high)}`,
    ),
  ].join('\n');
}

function boardLine({
  board,
  species,
  thickness,
  copies,
  cutLength,
  leadInLength,
  holes,
  cuts,
}: BoardPlan): string {
  const hardness = hardnessOf(species);
  const each = paceMetres(cutLength + leadInLength, thickness, hardness);
  return [
    `${board}: (${metres(cutLength)} + ${metres(leadInLength)}) m x ${figure(thickness)} / ${PACE_THICKNESS}`,
    ` x root(${hardness} / 1000)${copies === 1 ? '' : ` x ${copies} boards`} = ${figure(copies * each)} m;`,
    ` ${cuts.length} cuts, ${holes.length} holes`,
  ].join('');
}

function metres(mm: number): string {
  return figure(mm / 1000);
}
