import type { CutPlan } from '../model/cut-plan.ts';

/**
 * Woods whose dust ACGIH lists: A1, confirmed human carcinogen, and A2, suspected (OSHA's page on wood dust, read).
 * The exposure limit named is NIOSH's recommended one, 1 mg/m3 over a shift, wood dust being a potential carcinogen
 * (NIOSH Pocket Guide, wood dust, read).
 */
const LISTED_DUST: readonly (readonly [word: RegExp, list: string])[] = [
  [/\b(oak|beech)\b/i, 'A1'],
  [/\b(birch|mahogany|teak|walnut)\b/i, 'A2'],
];

/**
 * What to mind with this plan, plainly: small parts, dust of these woods, sharp edges, finishes. The tool's manual
 * and local rules come first. Oily rags: 29 CFR 1926.252(e) asks for covered metal containers.
 */
export function cautionsFor(plan: Pick<CutPlan, 'boards'>): string[] {
  const small = plan.boards
    .flatMap(({ cuts }) => cuts)
    .filter(({ reason }) => reason.startsWith('too small to hold'));
  const woods = [...new Set(plan.boards.map(({ species }) => species))];
  const listed = woods.flatMap((wood) =>
    LISTED_DUST.filter(([word]) => word.test(wood)).map(([, list]) => `${wood} (${list})`),
  );
  return [
    ...(small.length > 0
      ? [
          `${small.length} outlines are of parts too small for fingers near the blade: keep them on their section, or on a carrier glued or taped below, and hold that.`,
        ]
      : []),
    listed.length > 0
      ? `Dust: ACGIH lists ${listed.join(', ')} as causing cancer (A1) or suspected of it (A2). Extract and wear a mask; NIOSH recommends no more than 1 mg/m3 of any wood dust over a shift.`
      : 'Dust: extract and wear a mask; NIOSH recommends no more than 1 mg/m3 of any wood dust over a shift.',
    'Fresh edges and points are sharp: break them before you sand by hand or glue.',
    'Rags with oil finish can take fire by themselves: spread them singly to dry, or keep them in a metal can with a lid.',
    'The manual of your saw and the rules of your place come before this plan.',
  ];
}
