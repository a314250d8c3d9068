import { lineLength, ringPerimeter } from '../../src/geometry/ring.ts';
import type { Line, Point, Region, Ring } from '../../src/geometry/shapes.ts';
import type { LaidBoard, Layout, Placement } from '../../src/model/layout.ts';

/** Boards typed by hand for the saw. */

export function rectangle(x: number, y: number, width: number, height: number): Ring {
  return [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ];
}

export function disc(x: number, y: number, radius: number, points = 24): Ring {
  return Array.from({ length: points }, (_, i): Point => {
    const angle = (2 * Math.PI * (i + 0.5)) / points;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  });
}

export function part(name: string, region: Region | Ring, veins: readonly Line[] = []): Placement {
  const solid = 'outline' in region ? region : { outline: region, openings: [] };
  return {
    part: name,
    layer: 'Front',
    set: 1,
    x: 0,
    y: 0,
    rotation: 0,
    turnedOver: false,
    region: solid,
    veins,
  };
}

export function board(placements: readonly Placement[], fields: Partial<LaidBoard> = {}): LaidBoard {
  return {
    id: 'A-1',
    stock: 'A',
    species: 'black walnut',
    thickness: 19.05,
    copies: 1,
    usable: { outline: rectangle(0, 0, 600, 150), openings: [] },
    placements,
    ...fields,
  };
}

/** A layout of these boards, its cut length summed here and nowhere else. */
export function layoutOf(...boards: readonly LaidBoard[]): Layout {
  const cut = ({ region, veins }: Placement) =>
    [region.outline, ...region.openings].reduce((sum, ring) => sum + ringPerimeter(ring), 0) +
    veins.reduce((sum, vein) => sum + lineLength(vein), 0);
  const cutLength = boards.reduce(
    (sum, { placements, copies }) => sum + copies * placements.reduce((all, each) => all + cut(each), 0),
    0,
  );
  const totals = {
    boards: boards.length,
    parts: 1,
    partArea: 1,
    boardArea: 1,
    yield: 1,
    boardFeet: 1,
    cutLength,
    openings: 0,
  };
  return {
    format: 'fretlay-layout',
    version: 1,
    unit: 'mm',
    kerf: 0.6,
    clearance: 0.5,
    edgeMargin: 3,
    sets: 1,
    setContents: [],
    boards,
    unplaced: [],
    figures: { ...totals, completeSets: 1, bySpecies: {} },
  };
}

/** A board with everything: rest edges on its edge, an arch between two feet, openings, veins, a part in an opening. */
export function fullBoard(): LaidBoard {
  const arch: Ring = [
    [10, 150],
    [10, 60],
    [90, 60],
    [90, 150],
    [70, 150],
    [70, 120],
    [30, 120],
    [30, 150],
  ];
  const frame = {
    outline: rectangle(110, 10, 120, 120),
    openings: [rectangle(125, 25, 90, 90), disc(118, 60, 3)],
  };
  const inner = { outline: disc(170, 70, 30), openings: [disc(170, 70, 6)] };
  const touching: Line = [
    [176, 70],
    [185, 72],
    [190, 70],
  ];
  return board([
    part('arch', arch, [
      [
        [20, 70],
        [80, 70],
      ],
      [
        [40, 60],
        [40, 90],
      ],
    ]),
    part('frame', frame),
    part('medal', inner, [touching]),
    part('bar', rectangle(240, 130, 100, 20)),
    part('small', disc(260, 40, 12)),
    part('small', disc(300, 40, 12)),
    part('plate', { outline: rectangle(380, 5, 120, 120), openings: [disc(440, 60, 20)] }),
  ]);
}
