import { locateInRing } from '../geometry/ring.ts';
import { type Box, boundsOf, boxArea, boxesMeet, type Ring } from '../geometry/shapes.ts';
import type { Placement } from '../model/layout.ts';

/** Which parts are sawn before another because they lie in it or under it, all by their index among the placements of the board. */
export interface InnerParts {
  /** Placements directly inside an opening of a placement. */
  inside(placement: number, opening: number): readonly number[];
  /** Placements between a placement and the edge of the board it stands on: what is left there falls out with its outline. */
  under(placement: number): readonly number[];
  /** Placements that lie on the board itself. */
  readonly outer: readonly number[];
}

/** An opening of a placement, or with none the room under it. */
interface Room {
  readonly placement: number;
  readonly opening: number | undefined;
  readonly ring: Ring;
  readonly box: Box;
}

/** Nearer than this to a ring a vertex tells nothing, mm: what stands on the edge of the board lies on that of a bay. */
const ON_RING = 0.05;

/**
 * Finds the parts that were laid into openings of others or into bays that the edge of the board closes, to any depth, by
 * their index. One vertex tells for a whole part: parts never overlap, so a part is in there with all of itself or not at all.
 *
 * @param bays of each placement, rings closed by the edge of the board
 */
export function innerParts(placements: readonly Placement[], bays: readonly (readonly Ring[])[]): InnerParts {
  const rooms = placements.flatMap(({ region: { openings } }, placement): Room[] => [
    ...openings.map((ring, opening) => ({ placement, opening, ring, box: boundsOf(ring) })),
    ...bays[placement].map((ring) => ({ placement, opening: undefined, ring, box: boundsOf(ring) })),
  ]);
  const hosts = placements.map(({ region: { outline } }, inner): Room | undefined => {
    const box = boundsOf(outline);
    return rooms
      .filter((room) => room.placement !== inner && boxesMeet(room.box, box) && holds(room.ring, outline))
      .reduce<Room | undefined>(
        (least, room) => (least === undefined || size(room) < size(least) ? room : least),
        undefined,
      );
  });
  const hosted = new Map<string, number[]>();
  hosts.forEach((host, inner) => {
    if (host !== undefined) hosted.set(keyOf(host), [...(hosted.get(keyOf(host)) ?? []), inner]);
  });
  return {
    inside: (placement, opening) => hosted.get(keyOf({ placement, opening })) ?? [],
    under: (placement) => hosted.get(keyOf({ placement, opening: undefined })) ?? [],
    outer: hosts.flatMap((host, index) => (host === undefined ? [index] : [])),
  };
}

function keyOf({ placement, opening }: Pick<Room, 'placement' | 'opening'>): string {
  return `${placement} ${opening}`;
}

function holds(room: Ring, outline: Ring): boolean {
  const clear = outline.find((point) => locateInRing(point, room, ON_RING) !== 0);
  return clear !== undefined && locateInRing(clear, room) === 1;
}

/** The smallest room around a part is the one it lies in directly. */
function size({ box }: Room): number {
  return boxArea(box);
}
