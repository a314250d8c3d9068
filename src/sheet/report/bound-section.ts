import type { WoodBound } from '../../model/wood-bound.ts';
import { formatThickness } from '../../units/distances.ts';
import type { DisplayUnit } from '../../units/length.ts';
import { percent } from '../../units/percent.ts';
import { type Html, html, named, numbers, table, words } from './html.ts';

/** How much more wood any layout could save at most: a table for the report. */
export function boundSection(bounds: readonly WoodBound[], unit: DisplayUnit): Html[] {
  if (bounds.length === 0) return [];
  const rows = bounds.map(({ species, thickness, boards, atLeast, filled, savedAtMost }) => [
    named(`${species} ${formatThickness(thickness, unit)}`),
    `${boards}`,
    `${atLeast}`,
    percent(filled),
    percent(savedAtMost),
  ]);
  const heads = [
    words('Wood'),
    numbers('Boards taken'),
    numbers('Any layout takes at least'),
    numbers('Parts and their gaps fill'),
    numbers('Could be saved at most'),
  ];
  return [
    html('section', {}, [
      html('h2', {}, ['How good the layout is']),
      html('p', {}, [
        'Parts with the gaps around them never overlap, so no layout does better than this by area. Curved parts do not fill a board, so the true best lies in between.',
      ]),
      table('Boards against the least possible', heads, rows),
    ]),
  ];
}
