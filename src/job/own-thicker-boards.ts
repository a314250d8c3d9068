import { boundsOf, sidesOf } from '../geometry/shapes.ts';
import type { Issue } from '../issues/issue.ts';
import type { Batch, Demand } from '../model/batch.ts';
import type { Purchase } from '../model/purchase.ts';
import { partKey } from '../model/same-part.ts';
import type { Board } from '../model/stock.ts';
import { wholeBoard } from '../model/whole-board.ts';
import { usedStock } from '../stock/used-boards.ts';
import { woodSteps } from '../stock/wood-choice.ts';
import { formatThickness } from '../units/distances.ts';
import type { DisplayUnit } from '../units/length.ts';

/**
 * A note for every thicker board of the maker's own that lies unused while wood of its species is bought: boards that ask
 * for less work are taken first, and of those for sale there mostly are enough. What the purchase would then cost is not
 * looked for.
 *
 * @param batch demands, and the boards at hand without those for sale
 * @param unit what thicknesses are told in
 */
export function ownThickerIssues(batch: Batch, { items, layout }: Purchase, unit: DisplayUnit): Issue[] {
  const bought = new Set(items.map(({ id }) => id));
  const cut = new Set(
    layout.boards
      .filter(({ stock }) => bought.has(stock))
      .flatMap(({ placements }) => placements.map(partKey)),
  );
  const used = new Map(usedStock(layout).map(({ stock, numbers }) => [stock, numbers.length]));
  const told = new Map<string, Issue>();
  for (const demand of batch.demands.filter((each) => cut.has(partKey(each)))) {
    const steps = woodSteps(batch.boards, demand.species, demand.thickness, batch.thicknessTolerance);
    for (const { board, fit } of steps.flat()) {
      const isFree = wholeBoard(board).quantity > (used.get(board.id) ?? 0);
      if (fit.work === 'none' || !isFree || told.has(board.id) || !mayHold(board, demand, batch)) continue;
      const work = fit.work === 'plane' ? 'planed' : 'resawn and planed';
      const thickness = formatThickness(demand.thickness, unit);
      told.set(board.id, {
        kind: 'own-board-thicker',
        severity: 'note',
        message: `wood of this species is bought while this board of your own could be ${work} to ${thickness}: boards that ask for less work are taken first`,
        remedy: 'To buy less, enter it with the thickness it has when that is done, and plan again.',
        where: { board: board.id },
      });
    }
  }
  return [...told.values()];
}

/** False when a part is longer or wider than the board whichever way it lies. */
function mayHold({ outline }: Board, { region }: Demand, { edgeMargin }: Batch): boolean {
  const [width, length] = sidesOf(boundsOf(outline));
  const [partWidth, partLength] = sidesOf(boundsOf(region.outline));
  return partWidth <= width - 2 * edgeMargin && partLength <= length - 2 * edgeMargin;
}
