import { COMMON_RATES } from '../costing/rates.ts';
import { displayUnit, text as name, number, optional, that } from '../issues/checks.ts';
import { counted } from '../issues/counted.ts';
import { throwOnErrors } from '../issues/fretlay-error.ts';
import type { Issue } from '../issues/issue.ts';
import { recordByHand } from '../issues/record-by-hand.ts';
import type { Layout } from '../model/layout.ts';
import { layoutCheck } from '../model/layout-checks.ts';
import type { Board } from '../model/stock.ts';
import { stockCheck } from '../stock/board-checks.ts';
import { type UsedStock, usedStock } from '../stock/used-boards.ts';
import type { DisplayUnit } from '../units/length.ts';
import { isCalendarDate } from './calendar-date.ts';
import { NewEntries } from './new-entries.ts';
import { type LastBatch, type Rack, type RawEntry, readRack } from './rack.ts';
import { roundedArea } from './size-writer.ts';
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
  const made = new NewEntries(stock, layout, ids, {
    date: batch.date,
    unit: batch.unit ?? 'mm',
    keeperCredit: batch.keeperCredit ?? COMMON_RATES.keeperCredit,
  });
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
    scrapArea: roundedArea(
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
