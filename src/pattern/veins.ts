import { lineClipper } from '../geometry/clip-lines.ts';
import { lineLength, linesLength } from '../geometry/ring.ts';
import { type Box, boundsOf, boxesMeet, boxHolds, type Line, type Region } from '../geometry/shapes.ts';
import { runsAlongEdge } from './lines-twice.ts';
import { TOUCHING_DEPTH } from './solids.ts';

/** Pieces of a vein shorter than this, mm, are crumbs of clipping at an edge. */
const SHORTEST_VEIN = 0.1;

/**
 * The pieces of an open line that lie in each region, and how much of its length lies in none, mm; undefined for a line that
 * runs along the edge of one.
 */
export type VeinFinder = (line: Line) => { pieces: Map<Region, Line[]>; outside: number } | undefined;

/** Finds the pieces of one line after another in the same regions. */
export function veinFinder(regions: readonly Region[]): VeinFinder {
  const hosts = regions.map((region): Host => ({ region, box: boundsOf(region.outline) }));
  return (line) => {
    const box = boundsOf(line);
    const isEdge = hosts.some(
      (host) => boxHolds(host.box, box, TOUCHING_DEPTH) && runsAlongEdge(line, host.region),
    );
    if (isEdge) return undefined;
    const pieces = new Map<Region, Line[]>();
    let inside = 0;
    for (const host of hosts) {
      // Most veins lie in one part of many: the others are not even looked into.
      if (!boxesMeet(box, host.box)) continue;
      host.clip ??= lineClipper([host.region]);
      const found = host.clip(line).filter((piece) => lineLength(piece) >= SHORTEST_VEIN);
      if (found.length > 0) pieces.set(host.region, found);
      inside += linesLength(found);
    }
    // Parts that overlap would both claim a piece, so the rest may come out below 0.
    return { pieces, outside: Math.max(0, lineLength(line) - inside) };
  };
}

/** A region that may have veins, and what cuts lines off at its edges once one comes near. */
interface Host {
  readonly region: Region;
  readonly box: Box;
  clip?: ReturnType<typeof lineClipper>;
}
