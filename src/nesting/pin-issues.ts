import { regionBounds } from '../geometry/ring.ts';
import { type Box, boundsOf, type Region } from '../geometry/shapes.ts';
import { firstFew } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { Batch, Demand, Pin } from '../model/batch.ts';
import { pinnedRegion } from '../model/pinned-region.ts';
import { isSamePart } from '../model/same-part.ts';
import { sameSpecies } from '../model/same-wood.ts';
import type { Board } from '../model/stock.ts';
import { hasStraightTop, isStraightAbove, reachesStraightEdge } from '../stock/sound-edges.ts';
import { unitName } from '../stock/units.ts';
import { usableOf } from '../stock/usable.ts';
import { candidatesFor } from '../stock/wood-choice.ts';
import { type Solid, solidOf } from './arrangement/solids.ts';
import { demandsByBoards } from './groups/groups.ts';
import { pinLiesWithin, pinsKeepApart } from './groups/pinned.ts';
import type { BoardEdge } from './problem/container.ts';

/**
 * What is wrong with pinned copies. The search lays all others around them and never moves them, so what cannot lie
 * there has to be told before it begins: it would be left out in silence, or break the rules of the layout.
 */

/** What a fault is told by, beside its place. */
type Fault = Pick<Issue, 'message' | 'expected' | 'received' | 'remedy'> & {
  /** Field of the pin that is wrong; none when it is where the pin lies. */
  readonly field?: 'layer' | 'part' | 'board' | 'number' | 'rotation' | 'turnedOver';
};

/** A pinned copy on its board, by all that is asked of it. */
interface Settled {
  readonly n: number;
  readonly pin: Pin;
  readonly demand: Demand;
  readonly board: Board;
  /** What it covers of its board, mm. */
  readonly region: Region;
  readonly solid: Solid;
  /** The board it lies on. */
  readonly on: string;
  /** Number of the group of parts that it belongs to. */
  readonly group: number;
}

/** The pins of a batch, looked at one after the other. */
interface Looking {
  readonly batch: Batch;
  /** Demands that lie on the same boards. */
  readonly groups: readonly (readonly Demand[])[];
  /** Those before that lie where they may. */
  readonly settled: readonly Settled[];
}

/** An error for every pin of a batch that cannot be honoured; each is told once, by its first fault. */
export function pinIssues(
  batch: Batch,
  { field, file }: { readonly field: string; readonly file?: string },
): Issue[] {
  const { pins = [] } = batch;
  if (pins.length === 0) return [];
  const groups = demandsByBoards(batch).map(({ demands }) => demands);
  const settled: Settled[] = [];
  return pins.flatMap((pin, n): Issue[] => {
    const found = lookAt({ batch, groups, settled }, pin, n);
    if ('solid' in found) {
      settled.push(found);
      return [];
    }
    const { field: of, ...fault } = found;
    const place = `${field}[${n}]${of === undefined ? '' : `.${of}`}`;
    const { layer, part, board } = pin;
    const names = of === 'layer' || of === 'part' || of === 'board' ? {} : { layer, part, board };
    const where = { ...(file === undefined ? {} : { file }), field: place, ...names };
    return [{ kind: 'pin-invalid', severity: 'error', ...fault, where }];
  });
}

function lookAt({ batch, groups, settled }: Looking, pin: Pin, n: number): Fault | Settled {
  const demand = batch.demands.find((each) => isSamePart(each, pin));
  const board = batch.boards.find(({ id }) => id === pin.board);
  if (demand === undefined) return unknownPart(pin, batch.demands);
  if (board === undefined)
    return unknown(
      'board',
      pin.board,
      batch.boards.map(({ id }) => id),
    );
  const fault =
    numberFault(batch, n, board, demand) ?? woodFault(batch, board, demand) ?? rulesFault(pin, demand, board);
  if (fault !== undefined) return fault;
  const region = pinnedRegion(pin, demand);
  const own: Settled = {
    n,
    pin,
    demand,
    board,
    region,
    solid: solidOf(region),
    on: unitName(board, { number: pin.number, slice: undefined }),
    group: groups.findIndex((demands) => demands.includes(demand)),
  };
  return placeFault(batch, own) ?? neighbourFault(batch, own, settled) ?? own;
}

/** Of a layer that there is, its parts are named; else the layers. */
function unknownPart({ layer, part }: Pin, demands: readonly Demand[]): Fault {
  const ofLayer = demands.filter((each) => each.layer === layer);
  return ofLayer.length > 0
    ? unknown(
        'part',
        part,
        ofLayer.map((each) => each.part),
      )
    : unknown('layer', layer, [...new Set(demands.map((each) => each.layer))]);
}

/** Most names that are told of what there is. */
const MOST_NAMED = 20;

function unknown(field: 'layer' | 'part' | 'board', name: string, names: readonly string[]): Fault {
  const known = names.map((name) => `"${name}"`);
  const inLayer = field === 'part' ? ' in this layer' : '';
  return {
    field,
    message: `there is no such ${field === 'board' ? 'board at hand' : `${field}${inLayer}`}`,
    ...(names.length === 0 ? {} : { expected: `one of ${firstFew(known, MOST_NAMED)}` }),
    received: `"${name}"`,
    remedy: 'Write names as the drawing and the stock have them: capitals count.',
  };
}

function numberFault(
  { sets, pins = [] }: Batch,
  n: number,
  board: Board,
  { copiesPerSet }: Demand,
): Fault | undefined {
  const tooMany = (field: 'number' | 'part', message: string, most: number, found: number): Fault => ({
    field,
    message,
    expected: `at most ${most}`,
    received: `${found}`,
  });
  const pin = pins[n];
  const blank = blankOf(board);
  if (pin.number > board.quantity)
    return tooMany(
      'number',
      `the stock has not so many ${blank === undefined ? '' : `${blank}s `}of this board`,
      board.quantity,
      pin.number,
    );
  const before = pins.slice(0, n).filter((other) => isSamePart(other, pin)).length;
  if (before < sets * copiesPerSet) return undefined;
  return tooMany('part', 'more copies are pinned than the batch has', before, before + 1);
}

/** What a board is cut into before layout: strips, or lengths of it or of them; undefined where it stays whole. */
function blankOf({ strips = 1, lengths = 1 }: Board): string | undefined {
  if (lengths > 1) return 'cut length';
  return strips > 1 ? 'strip' : undefined;
}

/** What is wrong with the wood of a board, when the part cannot be made of it. */
function woodFault({ thicknessTolerance }: Batch, board: Board, demand: Demand): Fault | undefined {
  const { species, thickness } = demand;
  if (candidatesFor([board], species, thickness, thicknessTolerance).length > 0) return undefined;
  const isOfWood = sameSpecies(board.species, species);
  const asThick =
    board.sheet === true
      ? `a sheet ${mm(thickness)} thick, give or take ${mm(thicknessTolerance)}: sheets are not thinned`
      : `at least ${mm(thickness - thicknessTolerance)} thick`;
  return {
    field: 'board',
    message: `the part "${demand.part}" cannot be made of this board`,
    expected: isOfWood ? asThick : species,
    received: isOfWood ? mm(board.thickness) : board.species,
    remedy: 'Pin it to a board of its wood, or change the species or thickness of the layer.',
  };
}

/** Sums of angles are off by their rounding, degrees. */
const ROUNDING = 1e-6;

/** The edge of the board on which a part stands that is pinned at a rotation; undefined at any other. */
function edgeUnderPin(rotation: number, onTop: boolean): BoardEdge | undefined {
  const off = Math.abs(rotation % 360);
  if (off <= ROUNDING) return 'straight';
  return onTop && Math.abs(off - 180) <= ROUNDING ? 'top' : undefined;
}

function rulesFault(
  { rotation, turnedOver = false }: Pin,
  { rules }: Demand,
  board: Board,
): Fault | undefined {
  const { grain, grainTolerance, turnOver, restEdge } = rules;
  const onTop = restEdge && hasStraightTop(board, usableOf(board));
  if (turnedOver && !turnOver)
    return {
      field: 'turnedOver',
      message: 'the part may not be turned over',
      remedy: 'Turn it back, or allow it with "turnOver" of the layer.',
    };
  if (restEdge && edgeUnderPin(rotation, onTop) === undefined) {
    const isForTop = edgeUnderPin(rotation, true) === 'top' && !isStraightAbove(board);
    return {
      field: 'rotation',
      message: 'the part has to stand on its rest edge',
      expected: onTop ? '0 degrees, or 180 on the top edge' : '0 degrees',
      received: `${rotation} degrees`,
      ...(isForTop
        ? { remedy: 'Where the top edge of the board is straight too, say "straightTopEdge" of it.' }
        : {}),
    };
  }
  if (grain === 'free') return undefined;
  const turned = Math.abs((rotation - (grain === 'along' ? 0 : 90)) % 180);
  const off = Math.min(turned, 180 - turned);
  if (off <= grainTolerance + ROUNDING) return undefined;
  const main = grain === 'along' ? '0 or 180 degrees' : '90 or 270 degrees';
  return {
    field: 'rotation',
    message: 'the part would be turned off its grain',
    expected: grainTolerance === 0 ? main : `${main}, give or take ${grainTolerance}`,
    received: `${rotation} degrees`,
    remedy: 'Turn it with the grain, or change "grain" or "grainTolerance" of the layer.',
  };
}

/** How far a flat bottom may be off the straight edge that it stands on, mm: what is read off a rule. */
const STANDING = 0.01;

function placeFault(
  batch: Batch,
  { pin, board, region, solid, on, demand: { rules } }: Settled,
): Fault | undefined {
  const usable = usableOf(board);
  if (usable.outline.length < 3) return { field: 'board', message: 'nothing of this board can be used' };
  const box = boundsOf(usable.outline);
  const part = regionBounds(region);
  const edge = rules.restEdge ? edgeUnderPin(pin.rotation, hasStraightTop(board, usable)) : undefined;
  const standing = edge === 'top' ? box.minY : box.maxY - (part.maxY - part.minY);
  const top = boundsOf(board.outline).minY;
  if (edge === 'straight' && !reachesStraightEdge(board, usable))
    return {
      message: 'the part has to stand on the straight edge of the board, and a defect runs all along that',
      remedy: 'Rip the defect off: "straightEdge" under "trim" of the board, as wide as it is.',
    };
  if (edge !== undefined && Math.abs(part.minY - standing) > STANDING)
    return {
      message:
        edge === 'top'
          ? 'head down the part has to stand on the top edge of the board'
          : 'the part has to stand on the straight edge of the board',
      expected: `${mm(standing - top)} from the top edge`,
      received: mm(part.minY - top),
    };
  if (pinLiesWithin(solid, usable, batch, edge)) return undefined;
  return {
    message: `the part lies off the ${blankOf(board) ?? 'board'}, or too near its edge or a defect`,
    expected: `at least ${mm(batch.edgeMargin)} from the edges and defects of ${on}, which is used from ${extent(box, board)}`,
    received: extent(part, board),
    remedy: 'Pin it elsewhere, or change "edgeMargin" or the trim of the board.',
  };
}

/** A pin on top of another, too near it, or beside a part that is not sawn from the same board. */
function neighbourFault(batch: Batch, own: Settled, settled: readonly Settled[]): Fault | undefined {
  const beside = settled.filter(({ on }) => on === own.on);
  const near = beside.find(({ solid }) => !pinsKeepApart(solid, own.solid, batch));
  if (near !== undefined)
    return {
      message: `the part overlaps pin ${near.n + 1}, "${near.pin.part}", or comes too near it`,
      expected: `at least ${mm(batch.kerf + batch.clearance)} between them, kerf and clearance`,
      remedy: 'Move one of them.',
    };
  const other = beside.find(({ group }) => group !== own.group);
  if (other === undefined) return undefined;
  return {
    field: 'board',
    message: `pin ${other.n + 1}, "${other.pin.part}", is on the same board, but of another thickness or stack`,
    remedy:
      'Pin them to different boards, or give both layers one thickness, and "stacked" to both or to neither.',
  };
}

/** Where something lies on a board as a rule has it, from the left end and the top edge. */
function extent({ minX, minY, maxX, maxY }: Box, { outline }: Board): string {
  const corner = boundsOf(outline);
  const along = `${thousandths(minX - corner.minX)} to ${mm(maxX - corner.minX)} from the left end`;
  return `${along} and ${thousandths(minY - corner.minY)} to ${mm(maxY - corner.minY)} from the top edge`;
}

function mm(length: number): string {
  return `${thousandths(length)} mm`;
}

/** So fine that what is refused for a hundredth does not look right. */
function thousandths(length: number): number {
  return Number(length.toFixed(3));
}
