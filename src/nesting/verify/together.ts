import type { Issue } from '../../issues/issue.ts';
import type { LaidBoard, Layout, Placement } from '../../model/layout.ts';
import { speciesKey } from '../../model/same-wood.ts';
import { breach } from './places.ts';

/**
 * Where sets have to stay together, the copies of a set that are of one wood lie on one board. The layout file does not say
 * which layers are of one wood: those that share a board somewhere are, and every layer is for itself. (Two layers of one
 * species whose boards are never the same may differ in thickness, or in how high they are stacked.)
 */
export function checkTogether({ setsTogether, sets, boards }: Layout, breaches: Issue[]): void {
  if (setsTogether !== true) return;
  const woodOf = sharedWoods(boards);
  const boardOf = new Map<string, string>();
  const reported = new Set<string>();
  for (const board of boards) {
    for (const [wood, { layer, first }] of firstSetsByWood(board, woodOf)) {
      for (const set of setsOn(first, board.copies, sets)) {
        const key = JSON.stringify([wood, set]);
        const known = boardOf.get(key) ?? board.id;
        boardOf.set(key, known);
        if (known === board.id || reported.has(key)) continue;
        reported.add(key);
        breaches.push(
          breach(
            'set-apart',
            `parts of set ${set} that belong together lie on two boards`,
            { layer },
            { expected: 'one board', received: `"${known}" and "${board.id}"` },
          ),
        );
      }
    }
  }
}

function layerKey({ species }: LaidBoard, { layer }: Placement): string {
  return JSON.stringify([layer, speciesKey(species)]);
}

/** One name for all layers that are linked by boards they share: two layers may do so by way of a third. */
function sharedWoods(boards: readonly LaidBoard[]): (layerOnBoard: string) => string {
  const next = new Map<string, string>();
  const woodOf = (key: string): string => {
    let wood = key;
    for (let to = next.get(wood); to !== undefined; to = next.get(wood)) wood = to;
    return wood;
  };
  for (const board of boards) {
    const [first, ...others] = new Set(board.placements.map((placement) => layerKey(board, placement)));
    for (const other of others) {
      const wood = woodOf(other);
      if (wood !== woodOf(first)) next.set(wood, woodOf(first));
    }
  }
  return woodOf;
}

/** What lies on a board of one wood: a layer of it, and the sets that its copies on the uppermost board are of. */
interface OnBoard {
  readonly layer: string;
  readonly first: Set<number>;
}

function firstSetsByWood(board: LaidBoard, woodOf: (layerOnBoard: string) => string): Map<string, OnBoard> {
  const found = new Map<string, OnBoard>();
  for (const placement of board.placements) {
    const wood = woodOf(layerKey(board, placement));
    const known = found.get(wood) ?? { layer: placement.layer, first: new Set() };
    known.first.add(placement.set);
    found.set(wood, known);
  }
  return found;
}

/** The sets that a stack carries, each once: those of its uppermost board, and of the boards below those that follow. */
function* setsOn(first: ReadonlySet<number>, copies: number, sets: number): Generator<number> {
  let done = 0;
  for (const set of [...first].sort((a, b) => a - b)) {
    const last = Math.min(sets, set + copies - 1);
    for (let each = Math.max(set, done + 1); each <= last; each++) yield each;
    done = Math.max(done, last);
  }
}
