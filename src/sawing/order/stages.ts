import type { Box } from '../../geometry/shapes.ts';
import type { Blade } from '../../model/cut-plan.ts';
import { isHardToHold, TOO_SMALL_TO_HOLD } from '../../model/small-parts.ts';
import type { Hanging, PartCuts, UnorderedCut } from '../part-cuts.ts';

/** What the stages are told apart by. Lengths in mm. */
export interface StageSettings {
  /** Depth of the saw's throat; undefined when it does not limit anything. */
  readonly throat: number | undefined;
  /** Parts smaller than this both ways are hard to hold. */
  readonly holdSize: number;
}

/** Cuts that are made in one go, in whatever order is short, and why they come where they do. */
export interface Stage {
  readonly cuts: readonly UnorderedCut[];
  readonly reason: (cut: UnorderedCut) => string;
  /** True when the parts lie free in the hand by then. */
  readonly partFree: boolean;
}

/**
 * The stages of a section. Openings come first, the finest blade first, then veins, then outlines: while there is
 * wood to hold (Sheila Landry, "Planning your cuts"; an opening sawn over its line can still be mended by the
 * outline). Strong parts leave the board before fragile ones, and small ones last, so that what is weak or hard to
 * hold keeps its wood longest. Authors say such rules are judgement; each cut carries its reason.
 *
 * @param section what swings in the throat while its parts are sawn: the box of the wood, mm of the board
 */
export function stagesOf(
  parts: readonly PartCuts[],
  section: Box,
  bladeOf: (cut: UnorderedCut) => Blade,
  settings: StageSettings,
): Stage[] {
  const freeFirst = parts.filter((part) => sawnFreeFirst(part, section, settings));
  const held = parts.filter((part) => !freeFirst.includes(part));
  const isSmall = (part: PartCuts) => isHardToHold(part, settings);
  const isFragile = ({ facts }: PartCuts) => facts?.thinnestNeck !== undefined;
  const strong = parts.filter((part) => !isSmall(part) && !isFragile(part));
  const fragile = parts.filter((part) => !isSmall(part) && isFragile(part));
  const detail = (
    kind: 'openings' | 'veins' | 'tabs',
    of: readonly PartCuts[],
    reason: string,
    partFree = false,
  ) =>
    byBlade(
      of.flatMap((part) => part[kind]),
      bladeOf,
    ).map((cuts): Stage => ({ cuts, reason: () => reason, partFree }));
  const outlines = (of: readonly PartCuts[], reason: (cut: UnorderedCut) => string): Stage[] =>
    byBlade(
      of.flatMap((part) => part.outline),
      bladeOf,
    ).map((cuts) => ({ cuts, reason, partFree: false }));
  const stages = [
    ...detail('openings', held, 'before the outline, while the whole board holds the part'),
    ...detail('veins', held, 'while there is still wood around the part to hold'),
    ...outlines(strong, ({ placement }) =>
      freeFirst.some((part) => part.placement === placement)
        ? 'freed before its openings: the section does not turn in the throat, the part alone does, and it is strong'
        : 'strong enough to leave the board early, while it is easy to steer',
    ),
    ...outlines(
      fragile,
      () =>
        'has a thin neck: kept in the board until the strong parts are out, and closed away from the neck',
    ),
    ...outlines(parts.filter(isSmall), ({ placement }) => {
      const part = parts.find((each) => each.placement === placement);
      return `${TOO_SMALL_TO_HOLD}: ${WHILE_SAWN[part?.hangs ?? 'without a tab']}`;
    }),
    ...detail('openings', freeFirst, 'in the free part, which turns in the throat', true),
    ...detail('veins', freeFirst, 'in the free part, which turns in the throat', true),
    ...detail('tabs', parts, 'held a small part while all else on its section was sawn'),
  ];
  return stages.filter(({ cuts }) => cuts.length > 0);
}

/** What holds a small part while its outline is sawn. */
const WHILE_SAWN: Readonly<Record<Hanging, string>> = {
  firmly: 'sawn all but a tab, by which it hangs in the board',
  'by nothing': 'sawn all but a tab, with no wood beside it that stays, so that a carrier has to hold it',
  'without a tab': 'stays on its section to the last',
};

/**
 * True for a part that is freed before its openings: the section is too long to turn in the throat, the part by
 * itself is not, and it is large (twice the size that can be held, both ways) and without thin necks.
 */
function sawnFreeFirst(
  { width, height, openings, facts }: PartCuts,
  section: Box,
  { throat, holdSize }: StageSettings,
): boolean {
  if (throat === undefined || openings.length === 0 || facts?.thinnestNeck !== undefined) return false;
  const turns = Math.hypot(section.maxX - section.minX, section.maxY - section.minY) <= throat;
  return !turns && Math.hypot(width, height) <= throat && Math.min(width, height) >= 2 * holdSize;
}

/** The cuts in lots of one blade, the finest first. */
function byBlade(
  cuts: readonly UnorderedCut[],
  bladeOf: (cut: UnorderedCut) => Blade,
): (readonly UnorderedCut[])[] {
  const lots = new Map<Blade, UnorderedCut[]>();
  for (const cut of cuts) {
    const lot = lots.get(bladeOf(cut));
    if (lot === undefined) lots.set(bladeOf(cut), [cut]);
    else lot.push(cut);
  }
  return [...lots].sort(([a], [b]) => a.width - b.width).map(([, lot]) => lot);
}
