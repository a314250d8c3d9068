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
    numbers('Parts and their gaps fill of the wood in use'),
    numbers('Of it could be saved at most'),
  ];
  return [
    html('section', {}, [
      html('h2', {}, ['How good the layout is']),
      html('p', {}, [
        'No layout on these boards, ripped as they are, does better than this: parts with the gaps around them never overlap, only so many stand above each other across a board, and only so many beside each other on its straight edges. Wood in use is that of the boards from their first part to their last. The true best lies in between.',
      ]),
      table('Boards against the least possible', heads, rows),
    ]),
  ];
}
