import { COMMON_RATES } from '../costing/rates.ts';
import { woodCost } from '../costing/wood-cost.ts';
import { areCrossingFree } from '../geometry/crossing-free.ts';
import { isBox, regionArea, ringArea } from '../geometry/ring.ts';
import { boundsOf, type Point, type Ring } from '../geometry/shapes.ts';
import { faultOf } from '../geometry/sound-region.ts';
import { withoutSpikes } from '../geometry/spikes.ts';
import { displayUnit, text as name, number, optional, that } from '../issues/checks.ts';
import { counted } from '../issues/counted.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { recordByHand } from '../issues/record-by-hand.ts';
import { isRip } from '../model/cross-cuts.ts';
import type { CostLine } from '../model/estimate.ts';
import type { LaidBoard, Layout, Offcut } from '../model/layout.ts';
import { layoutCheck } from '../model/layout-checks.ts';
import { roughSlice } from '../model/resawing.ts';
import type { Board, Trim } from '../model/stock.ts';
import { stockCheck } from '../stock/board-checks.ts';
import { WIDEST_CROSSCUT_KERF } from '../stock/keep-rule.ts';
import { isLevelAt, isStraightAbove } from '../stock/sound-edges.ts';
import { type UsedStock, usedStock } from '../stock/used-boards.ts';
import { type DisplayUnit, MM_PER_UNIT } from '../units/length.ts';
import { toCents } from '../units/money.ts';
import { isCalendarDate } from './calendar-date.ts';
import { type LastBatch, type Rack, readRack } from './rack.ts';
import { takenOfJobs } from './taken-of-jobs.ts';

/** The rack after a batch: entries that were not touched stay as they are written. */

/** What is told of the batch. */
export interface BatchName {
  readonly design: string;
  readonly sets: number;
  /** Date such as 2026-03-31; left out when undefined. */
  readonly date: string | undefined;
  /** A short text that batches of the same parts, copies and wood have alone; not told when left out. */
  readonly fingerprint?: string | undefined;
  /** Unit that lengths of new entries are written in; mm when left out. */
  readonly unit?: DisplayUnit | undefined;
  /**
   * Share of its part of the board's price that a keeper was credited to the batch with, 0 to 1, and so what it is worth
   * in the rack: the batch that takes it pays what this one did not. That of {@link COMMON_RATES} when left out.
   */
  readonly keeperCredit?: number | undefined;
}

/** A board entry as it stands in the file. */
type RawEntry = Readonly<Record<string, unknown>>;

/** mm with at most a hundredth, as a person can measure; money and mm2 likewise. */
const DECIMALS = 100;

/** Steps to which lengths are written: about as fine in both units. */
const STEPS = { mm: DECIMALS, in: 1000 } as const;

/** So much finer is a thickness: 3/8 in is 9.525 mm, and 13/16 in is 0.8125 in. */
const THICKNESS_FINER = 10;

/** How fine outlines are written: those that rounding would spoil finer than others. */
const FINENESS = [1, 10, 100, 1000] as const;
const FINEST = 1000;

/** So fine is a price of pieces alike that does not come out to the cent: that of a thousand of them is right to the cent. */
const PARTS_OF_CENT = 1000;

/** Lengths of new entries, in the unit the maker reads and writes. */
class Written {
  readonly #unit: DisplayUnit;

  constructor(unit: DisplayUnit) {
    this.#unit = unit;
  }

  /** A length as it stands in the file: a number of mm, or a text that names inches. */
  length(mm: number): number | string {
    return this.#text(this.#inUnit(mm, 1));
  }

  thickness(mm: number): number | string {
    return this.#text(this.#inUnit(mm, THICKNESS_FINER));
  }

  /** Length and width of an upright rectangle; the outline of anything else, moved to the origin. */
  size(outline: Ring): RawEntry {
    // Rounded first: a side that is bent by less than a person can measure is straight.
    const ring = this.#readable(outline);
    const { maxX, maxY } = boundsOf(ring);
    return isBox(ring)
      ? { length: this.#text(maxX), width: this.#text(maxY) }
      : { outline: ring.map(([x, y]) => [this.#text(x), this.#text(y)]) };
  }

  /** Holes, knots and the like of a new entry, if there are any: as the outline, they are told from its own corner. */
  defects(outline: Ring, rings: readonly Ring[]): RawEntry {
    const moved = rings.map((ring) => this.#movedTo(outline, ring, 1));
    // What rounding leaves nothing of is none, and would be refused.
    const left = moved.filter((ring) => ringArea(ring) * STEPS[this.#unit] ** 2 >= 1);
    if (left.length === 0) return {};
    return {
      defects: left.map((ring) => ({ outline: ring.map(([x, y]) => [this.#text(x), this.#text(y)]) })),
    };
  }

  /** What is still to be taken off the sides of a new entry, if there is anything. */
  trim(trim: Trim | undefined): RawEntry {
    const sides = Object.entries(trim ?? {}).filter(([, width]) => width !== 0);
    if (sides.length === 0) return {};
    return {
      trim: Object.fromEntries(
        sides.map(([side, width]) => [side, width === 'clean' ? width : this.length(width)]),
      ),
    };
  }

  /**
   * An outline moved to the origin that can be read again: where sides lie nearer to one another than a person can measure,
   * rounding may lay them on top of one another or across, and they are written finer.
   */
  #readable(outline: Ring): Ring {
    const mm = MM_PER_UNIT[this.#unit];
    const written = (fine: number): Ring =>
      withoutSpikes([{ outline: this.#movedTo(outline, outline, fine), openings: [] }])[0].outline;
    const inMm = (fine: number): Ring => written(fine).map(([x, y]) => [x * mm, y * mm]);
    return written(
      // Told to the last crossing: what is read again with less care than that cannot be checked once it is laid out on.
      FINENESS.find((fine) => areCrossingFree([inMm(fine)])) ??
        // Of many short sides beside one another, as at a jagged end, that is certain at no fineness.
        FINENESS.find((fine) => faultOf({ outline: inMm(fine), openings: [] }) === undefined) ??
        FINEST,
    );
  }

  /** A ring with the box of `outline` at the origin, in the unit, so many times as fine as lengths are written. */
  #movedTo(outline: Ring, ring: Ring, finer: number): Point[] {
    const { minX, minY } = boundsOf(outline);
    return ring.map(([x, y]) => [this.#inUnit(x - minX, finer), this.#inUnit(y - minY, finer)]);
  }

  #inUnit(mm: number, finer: number): number {
    const steps = STEPS[this.#unit] * finer;
    return Math.round((mm / MM_PER_UNIT[this.#unit]) * steps) / steps;
  }

  #text(value: number): number | string {
    return this.#unit === 'mm' ? value : `${value} in`;
  }
}

/**
 * The text of the rack after the batch: boards used up are gone, quantities lower, keepers, unused strips and slices new.
 * Lengths of new entries are in the unit of the batch, to a hundredth of a mm or a thousandth of an inch (outlines finer where that would spoil them), their thickness
 * ten times as fine; areas are in mm2 to a hundredth, prices in the currency of the boards.
 *
 * @param text the rack file before
 * @param stock the boards the layout was made on
 * @throws FretlayError when the text is no rack, the layout none, the stock no boards, the date no date, or the rack has fewer boards of an entry than the
 *   layout takes: it was made for another rack, or is settled already
 */
export function rackAfter(text: string, layout: Layout, stock: readonly Board[], batch: BatchName): string {
  throwOnErrors([
    ...layoutCheck('layout', layout),
    ...stockCheck('stock', stock),
    ...nameCheck('batch', batch),
  ]);
  const rack = readRack(text);
  const raw = JSON.parse(text.replace(/^\uFEFF/, '')) as { readonly boards: readonly RawEntry[] };
  const used = usedStock(layout);
  throwOnErrors(shortEntries(rack, used));
  const left = rack.boards.flatMap(({ id, quantity }, i): RawEntry[] => {
    const taken = used.find((entry) => entry.stock === id)?.numbers.length ?? 0;
    if (taken === 0) return [raw.boards[i]];
    return quantity > taken ? [{ ...raw.boards[i], quantity: quantity - taken }] : [];
  });
  // Boards of the job itself have names that a keeper must not bear either.
  const ids = [...rack.boards, ...stock].map(({ id }) => id);
  const made = new NewEntries(stock, layout, ids, batch);
  const free = used.flatMap((entry) => made.freePieces(entry));
  const kept = layout.boards.flatMap((laid) =>
    (laid.offcuts ?? []).map((offcut) => made.keeper(offcut, laid)),
  );
  const lastBatch: LastBatch = {
    design: batch.design,
    sets: layout.figures.completeSets,
    ...(batch.date === undefined ? {} : { date: batch.date }),
    ...(batch.fingerprint === undefined ? {} : { fingerprint: batch.fingerprint }),
    earlierThatDay: earlierOn(batch.date, rack.lastBatch),
    used: used.map(({ stock: id, numbers }) => ({ id, boards: numbers.length })),
    kept: kept.map(({ record }) => record),
    scrapArea: rounded(
      layout.boards.reduce((sum, { copies, areas }) => sum + copies * (areas?.scrap ?? 0), 0),
    ),
  };
  const boards = [...left, ...free, ...kept.map(({ entry }) => entry)];
  const taken = takenOfJobs(rack, used, stock);
  const { boards: _, ...rest } = raw as RawEntry;
  const after = {
    ...{ format: 'fretlay-rack', version: 1, ...rest, boards },
    ...(taken.length === 0 ? {} : { takenOfJobs: taken }),
    lastBatch,
  };
  return `${JSON.stringify(after, null, 2)}\n`;
}

/** The batches a rack was settled for before on the day, the last of them first. */
function earlierOn(date: string | undefined, last: LastBatch | undefined): LastBatch['earlierThatDay'] {
  if (date === undefined || last?.date !== date) return [];
  const { design, sets, fingerprint, earlierThatDay } = last;
  return [{ design, sets, ...(fingerprint === undefined ? {} : { fingerprint }) }, ...earlierThatDay];
}

/** Only what a rack may hold is written into one, or it could not be read again. */
const nameCheck = recordByHand({
  design: name('Name the design; the rack tells which batch it was last used for.'),
  fingerprint: optional(name()),
  date: optional(that(isCalendarDate, 'a date such as 2026-03-31')),
  unit: optional(displayUnit),
  keeperCredit: optional(number({ least: 0, most: 1 })),
});

/** Entries of which more boards would be taken than there are. Boards that are not of the rack are no matter of it. */
function shortEntries({ boards }: Rack, used: readonly UsedStock[]): Issue[] {
  return boards.flatMap(({ id, quantity }, i): Issue[] => {
    const taken = used.find(({ stock }) => stock === id)?.numbers.length ?? 0;
    if (taken <= quantity) return [];
    return [
      {
        kind: 'rack-short',
        severity: 'error',
        message: 'the layout takes more boards of this entry than the rack has',
        expected: counted(taken, 'board'),
        received: `${quantity}`,
        remedy: 'Lay the batch out on this rack again: it was settled already, or made for another one.',
        where: { field: `boards[${i}].quantity`, board: id },
      },
    ];
  });
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

/**
 * Prices of new entries that add up: a keeper is worth what the batch was credited with for it, a strip or slice on which
 * nothing lies its share of what its board cost, for no batch has paid for it. What rounding takes from the batch or from one
 * entry is given to the next of the same board, so that the rack is worth what was paid less what the batch was charged. One
 * entry has one price for all its pieces, for boards of two entries are never stacked: that of the last of a board has parts
 * of a cent where it does not come out. Of a board of 45.00 in seven strips two are charged at 12.86, and the five that are
 * left are 6.428 each.
 */
class SharedPrices {
  readonly #known = new Map<string, { value: number; told: number; left: number }>();
  readonly #charged: (stock: string) => readonly CostLine[];
  readonly #entries: (stock: string) => number;

  /**
   * @param charged lines of the wood of a stock, as the batch is charged for it
   * @param entries number of entries that are made of a stock
   */
  constructor(charged: (stock: string) => readonly CostLine[], entries: (stock: string) => number) {
    this.#charged = charged;
    this.#entries = entries;
  }

  /** Price of each of the `copies` pieces of an entry that are worth `value` each. */
  next(stock: string, value: number, copies: number): number {
    const sums = this.#known.get(stock) ?? this.#begun(stock);
    this.#known.set(stock, sums);
    sums.value += copies * value;
    sums.left--;
    const due = Math.max(0, toCents(sums.value) - sums.told);
    const each = sums.left > 0 ? Math.round(due / copies) : due / copies;
    sums.told += copies * each;
    return Math.round(each * PARTS_OF_CENT) / (100 * PARTS_OF_CENT);
  }

  /** What the shares so far come to, the cents they were told as, and the entries to come. */
  #begun(stock: string): { value: number; told: number; left: number } {
    const lines = this.#charged(stock);
    return {
      value: lines.reduce((sum, { inputs }) => sum + inputs.reduce((all, each) => all * each.value, 1), 0),
      told: lines.reduce((sum, { cents }) => sum + cents.likely, 0),
      left: this.#entries(stock),
    };
  }
}

/** Makes the entries that a batch adds to a rack, each under the next free name. */
class NewEntries {
  readonly #stock: readonly Board[];
  readonly #names: KeeperNames;
  readonly #prices: SharedPrices;
  readonly #since: { readonly since?: string };
  readonly #written: Written;
  readonly #keeperCredit: number;

  /**
   * @param stock the boards the layout was made on
   * @param ids that are taken already, in the rack and in the job
   */
  constructor(
    stock: readonly Board[],
    layout: Layout,
    ids: readonly string[],
    { date, unit = 'mm', keeperCredit = COMMON_RATES.keeperCredit }: BatchName,
  ) {
    this.#keeperCredit = keeperCredit;
    this.#stock = stock;
    const free = usedStock(layout);
    this.#prices = new SharedPrices(
      (id) =>
        woodCost(
          layout,
          stock.filter((board) => board.id === id),
          { ...COMMON_RATES, keeperCredit },
        ).lines,
      (id) =>
        free.reduce((sum, entry) => (entry.stock === id ? sum + entry.free.length : sum), 0) +
        layout.boards.reduce((sum, laid) => (laid.stock === id ? sum + (laid.offcuts ?? []).length : sum), 0),
    );
    this.#names = new KeeperNames(ids);
    this.#since = date === undefined ? {} : { since: date };
    this.#written = new Written(unit);
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
      thickness: this.#written.thickness(laid.planeTo ?? laid.thickness),
      ...this.#written.size(region.outline),
      ...this.#written.defects(region.outline, region.openings),
      ...(laid.copies === 1 ? {} : { quantity: laid.copies }),
      ...this.#priced(board, this.#keeperCredit * share, laid.copies),
      ...(board?.sheet ? { sheet: true } : {}),
      ...topEdge(laid, offcut),
      keeper: true,
      ...this.#since,
      from: laid.id,
      largest: {
        length: this.#written.length(rectangle.maxX - rectangle.minX),
        width: this.#written.length(rectangle.maxY - rectangle.minY),
      },
    };
    return { entry, record: { id, from: laid.id, area: rounded(regionArea(region)) } };
  }

  /** Strips of ripped and slices of resawn boards on which nothing lies, rough from the saw: one entry for each thickness. */
  freePieces({ stock: id, free }: UsedStock): RawEntry[] {
    const board = this.#stock.find((one) => one.id === id);
    if (board === undefined) return [];
    return free.map(({ slices, count }) => ({
      id: this.#names.next(),
      species: board.species,
      thickness: this.#written.thickness(roughSlice(board.thickness, slices)),
      ...this.#written.size(board.outline),
      ...this.#written.defects(board.outline, board.defects),
      ...this.#written.trim(board.trim),
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

/** What an offcut says of its top edge: straight where that of its board is, and where it was ripped off below a straight cut. */
function topEdge({ usable, straightTopEdge = false }: LaidBoard, { region, lines }: Offcut): RawEntry {
  const { outline } = region;
  const { minY } = boundsOf(outline);
  const isOfBoard = minY < boundsOf(usable.outline).minY + 1 / DECIMALS;
  const isRipped = lines.some((line) => {
    const above = minY - boundsOf(line).maxY;
    return isRip(line) && above >= 0 && above <= WIDEST_CROSSCUT_KERF / 2;
  });
  return (straightTopEdge && isOfBoard) || (isRipped && isLevelAt(outline, minY))
    ? { straightTopEdge: true }
    : {};
}

function rounded(value: number): number {
  return Math.round(value * DECIMALS) / DECIMALS;
}
