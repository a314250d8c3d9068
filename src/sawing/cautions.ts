import type { CutPlan } from '../model/cut-plan.ts';
import { woodsAmong } from '../model/same-wood.ts';
import { isOfSmallPart } from '../model/small-parts.ts';

/**
 * Woods whose dust ACGIH lists: A1, confirmed human carcinogen, and A2, suspected (OSHA, "Wood dust: evaluating
 * exposure" and its chemical data page on wood dust, both read).
 */
const LISTED_DUST: readonly (readonly [word: RegExp, said: string])[] = [
  [/\b(oak|beech)\b/i, 'as causing cancer (A1)'],
  [/\b(birch|mahogany|teak|walnut)\b/i, 'as suspected of causing cancer (A2)'],
];

/**
 * Exposure limits for wood dust over a shift of 8 hours, mg/m3, as on the same two pages: the OSHA limit is that for
 * dust not otherwise regulated, of which respirable dust may be 5; NIOSH recommends and ACGIH gives as threshold 1,
 * for western red cedar ACGIH 0.5.
 */
const LIMITS =
  'Limits over a shift: OSHA 15 mg/m3 in all and 5 respirable; NIOSH and ACGIH recommend 1 (ACGIH 0.5 for western red cedar).';

/**
 * What to mind with this plan, plainly: small parts, eyes and dust, hold-down, sharp edges, finishes. The tool's
 * manual and local rules come first. Oily rags: 29 CFR 1926.252(e) asks for covered metal containers.
 */
export function cautionsFor({ boards }: Pick<CutPlan, 'boards'>): string[] {
  const hasTabs = boards.some(({ cuts }) => cuts.some(({ kind }) => kind === 'tab'));
  return [
    ...smallPartCautions(boards),
    'Let the hold-down rest on the work, and wear eye protection: a part that is nearly free can jump, and blades break.',
    ...dustCautions(boards),
    ...(hasTabs
      ? ['Hold the part and its board down flat when you saw a tab: both come loose at once.']
      : []),
    'Fresh edges and points are sharp: break them before you sand by hand or glue.',
    'Rags with oil finish can take fire by themselves: spread them singly to dry, or keep them in a metal can with a lid.',
    'The manual of your saw and the rules of your place come before this plan.',
  ];
}

function smallPartCautions(boards: CutPlan['boards']): string[] {
  const small = boards.reduce((sum, { cuts, copies, stack = 1 }) => {
    // By part and not by cut: the outline of one on the edge of the board is sawn in several.
    const here = new Set(cuts.filter(isOfSmallPart).map(({ placement }) => placement));
    return sum + copies * stack * here.size;
  }, 0);
  if (small === 0) return [];
  const parts = small === 1 ? '1 part is' : `${small} parts are`;
  return [
    `${parts} too small for fingers near the blade: keep the piece of board around them, or a carrier glued or taped below, and hold that.`,
  ];
}

function dustCautions(boards: CutPlan['boards']): string[] {
  const listed = woodsAmong(boards.map(({ species }) => species)).flatMap((wood) =>
    LISTED_DUST.filter(([word]) => word.test(wood)).map(([, said]) => `the dust of ${wood} ${said}`),
  );
  const named = listed.length === 0 ? '' : ` ACGIH lists ${listed.join(', ')}.`;
  return [`Extract the dust and wear a mask, when sanding too.${named} ${LIMITS}`];
}
