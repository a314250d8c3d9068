import { counted } from '../../issues/counted.ts';
import type { BatchSize } from '../../model/estimate.ts';
import { element, type WrittenElement } from '../../svg/write.ts';
import { formatMoney } from '../../units/money.ts';
import { textWidth } from '../marks/text-width.ts';

/** Size of the chart and of its bars, in its own units. */
const HEIGHT = 120;
const BAR = 44;
const GAP = 20;
const FOOT = 18;
const LETTERS = 11;
/** Between the sums above two bars, at least. */
const BETWEEN = 4;

/**
 * Cost of a piece (cents, hundredths of the unit of the currency) by size of batch, as bars: the dark part is wood,
 * written out above and below. The highest bar fills the height. Bars stand evenly and not to the scale of the sizes:
 * 1, 5 and 50 sets would leave the first two on top of one another.
 */
export function batchChart(sizes: readonly BatchSize[], currency: string): WrittenElement {
  const most = Math.max(1, ...sizes.map(({ piece }) => piece.likely));
  const widest = Math.max(
    ...sizes.map(({ piece }) => textWidth(formatMoney(piece.likely, currency), LETTERS)),
  );
  // Bars of many sets are as high as one another: sums in a currency of some letters would run together.
  const step = Math.max(BAR + GAP, widest + BETWEEN);
  const width = sizes.length * step + GAP;
  const list = sizes.map(
    ({ sets, piece }) => `${counted(sets, 'set')}: ${formatMoney(piece.likely, currency)}`,
  );
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${width} ${HEIGHT + 2 * FOOT}`,
      // Two bars would else fill the page: no wider than its letters as large as those of the text around it.
      style: `max-width:${(width / LETTERS).toFixed(1)}em`,
      role: 'img',
      'font-family': 'sans-serif',
      'font-size': LETTERS,
      'text-anchor': 'middle',
    },
    [element('title', {}, [`Cost of a piece by size of batch. ${list.join(', ')}`]), ...sizes.flatMap(bar)],
  );

  function bar({ sets, piece, wood = 0 }: BatchSize, i: number): WrittenElement[] {
    const x = (GAP + step - BAR) / 2 + i * step;
    const high = (HEIGHT * piece.likely) / most;
    const dark = (HEIGHT * Math.max(0, wood)) / most;
    const top = FOOT + HEIGHT - high;
    return [
      element('rect', {
        x,
        y: top,
        width: BAR,
        height: high,
        fill: '#d9c3a0',
        stroke: '#111111',
        'stroke-width': 0.5,
      }),
      element('rect', { x, y: FOOT + HEIGHT - dark, width: BAR, height: dark, fill: '#9a3412' }),
      element('text', { x: x + BAR / 2, y: top - 4 }, [formatMoney(piece.likely, currency)]),
      element('text', { x: x + BAR / 2, y: FOOT + HEIGHT + 13 }, [`${sets}`]),
    ];
  }
}
