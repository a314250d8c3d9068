import type { BoardAreas } from '../../model/layout.ts';
import type { MaterialAccount } from '../../model/material-account.ts';
import type { DisplayUnit } from '../../units/length.ts';
import { SQUARE_MM_PER_SQUARE_FOOT } from '../../units/lumber.ts';
import { percent } from '../../units/percent.ts';
import { type Html, html, named, numbers, table, words } from './html.ts';

/** The columns of the account, in the order in which a board is used up. */
const USES: readonly (readonly [heading: string, use: keyof BoardAreas])[] = [
  ['Boards', 'board'],
  ['Trims', 'trims'],
  ['Defects', 'defects'],
  ['Parts', 'parts'],
  ['Openings', 'openings'],
  ['Kerf', 'kerf'],
  ['Kept', 'keepers'],
  ['Scrap', 'scrap'],
];

/** Square millimetres in one square metre. */
const SQUARE_MM_PER_SQUARE_METRE = 1e6;

/**
 * Where the wood goes: areas that add up to the boards, then what they say of the layout, of the wood and of a set, in
 * square metres or square feet. The accounts come in mm2.
 */
export function materialSection(accounts: readonly MaterialAccount[], unit: DisplayUnit): Html {
  const square = unit === 'in' ? SQUARE_MM_PER_SQUARE_FOOT : SQUARE_MM_PER_SQUARE_METRE;
  const name = unit === 'in' ? 'square feet' : 'square metres';
  const area = (mm2: number | undefined) => (mm2 === undefined ? '' : (mm2 / square).toFixed(3));
  return html('section', {}, [
    html('h2', {}, ['Where the wood goes']),
    table(
      `In ${name}; what is right of the boards makes them up`,
      [words('Wood'), ...USES.map(([heading]) => numbers(heading))],
      accounts.map(({ species, areas }) => [named(species), ...USES.map(([, use]) => area(areas[use]))]),
    ),
    table(
      'How much of the wood that is used up became parts: offcuts that are kept, trims and defects are not counted against the layout',
      [
        words('Wood'),
        numbers('Parts in wood used up'),
        numbers('Trims and defects'),
        numbers(`Used a set, ${name}`),
        numbers('Board feet, exact'),
        numbers('Board feet, tally'),
      ],
      accounts.map((account) => [
        named(account.species),
        percent(account.yieldOfUsed),
        percent(account.flawShare),
        area(account.usedPerSet),
        account.exactBoardFeet.toFixed(2),
        account.tallyBoardFeet.toFixed(2),
      ]),
    ),
    html('p', {}, [
      'Exact board feet are the volume of the boards as measured. The tally books widths to the nearest inch, lengths to the foot below, and thickness as sold, never under an inch. Both are usual. Sheets have none.',
    ]),
  ]);
}
