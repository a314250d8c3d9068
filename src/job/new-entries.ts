import { COMMON_RATES } from '../costing/rates.ts';
import { woodCost } from '../costing/wood-cost.ts';
import { regionArea, ringArea } from '../geometry/ring.ts';
import { boundsOf } from '../geometry/shapes.ts';
import { isRip } from '../model/cross-cuts.ts';
import type { LaidBoard, Layout, Offcut } from '../model/layout.ts';
import { roughSlice } from '../model/resawing.ts';
import type { Board } from '../model/stock.ts';
import { WIDEST_CROSSCUT_KERF } from '../stock/keep-rule.ts';
import { isLevelAt, isStraightAbove } from '../stock/sound-edges.ts';
import { type UsedStock, usedStock } from '../stock/used-boards.ts';
import type { DisplayUnit } from '../units/length.ts';
import type { LastBatch, RawEntry } from './rack.ts';
import { SharedPrices } from './shared-prices.ts';
import { roundedArea, SizeWriter, STEPS_PER_MM } from './size-writer.ts';

/** The date and the unit that new entries are written with, and what their wood was credited with: see `BatchName`. */
interface EntryTerms {
  readonly date: string | undefined;
  readonly unit: DisplayUnit;
  readonly keeperCredit: number;
}

/** Makes the entries that a batch adds to a rack, each under the next free name. */
export class NewEntries {
  readonly #stock: readonly Board[];
  readonly #names: KeeperNames;
  readonly #prices: SharedPrices;
  readonly #since: { readonly since?: string };
  readonly #sizes: SizeWriter;
  readonly #keeperCredit: number;

  /**
   * @param stock the boards the layout was made on
   * @param ids that are taken already, in the rack and in the job
   */
  constructor(
    stock: readonly Board[],
    layout: Layout,
    ids: readonly string[],
    { date, unit, keeperCredit }: EntryTerms,
  ) {
    this.#keeperCredit = keeperCredit;
    this.#stock = stock;
    const used = usedStock(layout);
    this.#prices = new SharedPrices(
      (id) =>
        woodCost(
          layout,
          stock.filter((board) => board.id === id),
          { ...COMMON_RATES, keeperCredit },
        ).lines,
      (id) => entriesMadeOf(id, used, layout),
    );
    this.#names = new KeeperNames(ids);
    this.#since = date === undefined ? {} : { since: date };
    this.#sizes = new SizeWriter(unit);
  }

  /** A keeper, one of each board of a stack, as an entry, and as what is told of the batch. */
  keeper(offcut: Offcut, laid: LaidBoard): { entry: RawEntry; record: LastBatch['kept'][number] } {
    const board = this.#stock.find((one) => one.id === laid.stock);
    const share = board === undefined ? 0 : offcut.area / ringArea(board.outline) / (laid.slices ?? 1);
    const { rectangle, region } = offcut;
    const id = this.#names.next();
    const entry = {
      id,
      species: laid.species,
      thickness: this.#sizes.thickness(laid.planeTo ?? laid.thickness),
      ...this.#sizes.size(region.outline),
      ...this.#sizes.defects(region.outline, region.openings),
      ...(laid.copies === 1 ? {} : { quantity: laid.copies }),
      ...this.#priced(board, this.#keeperCredit * share, laid.copies),
      ...(board?.sheet ? { sheet: true } : {}),
      ...topEdge(laid, offcut),
      keeper: true,
      ...this.#since,
      from: laid.id,
      largest: {
        length: this.#sizes.length(rectangle.maxX - rectangle.minX),
        width: this.#sizes.length(rectangle.maxY - rectangle.minY),
      },
    };
    return { entry, record: { id, from: laid.id, area: roundedArea(regionArea(region)) } };
  }

  /** Strips of ripped and slices of resawn boards on which nothing lies, rough from the saw: one entry for each thickness. */
  freePieces({ stock: id, free }: UsedStock): RawEntry[] {
    const board = this.#stock.find((one) => one.id === id);
    if (board === undefined) return [];
    return free.map(({ slices, count }) => ({
      id: this.#names.next(),
      species: board.species,
      thickness: this.#sizes.thickness(roughSlice(board.thickness, slices)),
      ...this.#sizes.size(board.outline),
      ...this.#sizes.defects(board.outline, board.defects),
      ...this.#sizes.trim(board.trim),
      quantity: count,
      ...this.#priced(board, 1 / slices, count),
      ...(board.sheet ? { sheet: true } : {}),
      // Rough from the saw, as it was before any trim.
      ...(isStraightAbove({ ...board, trim: undefined }) ? { straightTopEdge: true } : {}),
      keeper: true,
      ...this.#since,
      from: id,
    }));
  }

  /** The price of each of so many pieces, each a share of a board; none where the board has none. */
  #priced(board: Board | undefined, share: number, copies: number): { price?: number } {
    return board?.price === undefined
      ? {}
      : { price: this.#prices.next(board.id, share * board.price, copies) };
  }
}

/** Number of entries that are made of the boards of an entry of the stock. */
function entriesMadeOf(id: string, used: readonly UsedStock[], { boards }: Layout): number {
  const free = used.filter(({ stock }) => stock === id).flatMap((entry) => entry.free);
  const keepers = boards.filter(({ stock }) => stock === id).flatMap(({ offcuts = [] }) => offcuts);
  return free.length + keepers.length;
}

/** Short names for keepers that can be chalked on the wood: K1, K2, ... */
class KeeperNames {
  private last: number;

  constructor(ids: readonly string[]) {
    this.last = Math.max(0, ...ids.map((id) => Number(/^K(\d{1,6})$/.exec(id)?.[1] ?? 0)));
  }

  next(): string {
    this.last++;
    return `K${this.last}`;
  }
}

/** What an offcut says of its top edge: straight where that of its board is, and where it was ripped off below a straight cut. */
function topEdge({ usable, straightTopEdge = false }: LaidBoard, { region, lines }: Offcut): RawEntry {
  const { outline } = region;
  const { minY } = boundsOf(outline);
  const isOfBoard = minY < boundsOf(usable.outline).minY + 1 / STEPS_PER_MM;
  const isRipped = lines.some((line) => {
    const above = minY - boundsOf(line).maxY;
    return isRip(line) && above >= 0 && above <= WIDEST_CROSSCUT_KERF / 2;
  });
  return (straightTopEdge && isOfBoard) || (isRipped && isLevelAt(outline, minY))
    ? { straightTopEdge: true }
    : {};
}
