import type { Point, Region, Ring } from '../../src/geometry/shapes.ts';
import type { LaidBoard, Layout, Placement, Totals } from '../../src/model/layout.ts';
import type { Mark } from '../../src/sheet/marks/marks.ts';

/** Layouts typed by hand: what a sheet or a report is drawn from, without any nesting. */

/** A rectangle. */
export function box(x: number, y: number, width: number, height: number): Ring {
  return [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ];
}

/** A regular ring of points on a circle. */
export function circle(x: number, y: number, radius: number, points = 48): Ring {
  return Array.from({ length: points }, (_, i) => {
    const angle = (2 * Math.PI * i) / points;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)] as const;
  });
}

/** A placement with defaults for what a test does not care about. */
export function placed(fields: Partial<Placement> & { readonly region: Region }): Placement {
  return {
    part: 'plate',
    layer: 'Front',
    set: 1,
    x: 0,
    y: 0,
    rotation: 0,
    turnedOver: false,
    veins: [],
    ...fields,
  };
}

/** A board of 300 x 120 mm with a knot and five parts: large, with openings, with a vein, nested, and tiny. */
export function handBoard(fields: Partial<LaidBoard> = {}): LaidBoard {
  const gable: Ring = [
    [10, 110],
    [10, 50],
    [50, 15],
    [90, 50],
    [90, 110],
  ];
  const vein: readonly Point[] = [
    [110, 60],
    [130, 52],
    [150, 60],
  ];
  return {
    id: 'maple-1',
    stock: 'maple',
    species: 'sugar maple',
    thickness: 19,
    copies: 1,
    usable: { outline: box(0, 0, 300, 120), openings: [circle(270, 30, 12)] },
    placements: [
      placed({
        part: 'boathouse',
        layer: 'House',
        region: { outline: gable, openings: [box(30, 60, 40, 40), circle(50, 38, 4)] },
      }),
      placed({
        part: 'float',
        layer: 'House',
        set: 1,
        region: { outline: circle(50, 80, 12), openings: [] },
      }),
      placed({
        part: 'duck',
        layer: 'Figures',
        set: 2,
        turnedOver: true,
        region: { outline: box(100, 20, 60, 50), openings: [] },
        veins: [vein],
      }),
      placed({
        part: 'peg',
        layer: 'Figures',
        set: 12,
        region: { outline: box(180, 60, 4, 9), openings: [] },
      }),
      placed({ part: 'ring', layer: 'Figures', set: 3, region: ringRegion(215, 70) }),
    ],
    ...fields,
  };
}

function ringRegion(x: number, y: number): Region {
  return { outline: circle(x, y, 20), openings: [circle(x, y, 17)] };
}

/** A layout of that board twice over, with one copy that found no place. */
export function handLayout(fields: Partial<Layout> = {}): Layout {
  const totals: Totals = {
    boards: 1,
    parts: 5,
    partArea: 9000,
    boardArea: 35548,
    yield: 9000 / 35548,
    boardFeet: 0.2862,
    cutLength: 1234.5,
    openings: 3,
  };
  const names = ['boathouse', 'float', 'duck', 'peg', 'ring'];
  return {
    format: 'fretlay-layout',
    version: 1,
    unit: 'mm',
    kerf: 1,
    clearance: 0.5,
    edgeMargin: 3,
    sets: 3,
    setContents: names.map((part, i) => ({
      part,
      layer: i < 2 ? 'House' : 'Figures',
      copiesPerSet: 1,
      grain: 'along',
      grainTolerance: 0,
      turnOver: i > 1,
    })),
    boards: [handBoard()],
    unplaced: [{ part: 'ring', layer: 'Figures', set: 1, why: 'no board of sugar maple has room left' }],
    figures: { ...totals, completeSets: 0, bySpecies: { 'sugar maple': totals } },
    ...fields,
  };
}

/** The marks of a sheet without its key, which shows a sample of each. */
export function besidesKey(marks: readonly Mark[]): Mark[] {
  return marks.filter((mark) => mark.kind !== 'group' || mark.id !== 'key');
}

/** Names that try to leave their place: markup, section ends, formulas, directions, length, control characters. */
export const HOSTILE_NAMES = [
  '<script>alert(1)</script>',
  ']]>',
  '"><img src=x onerror=alert(1)>',
  "' onload='alert(1)",
  '&lt;b&gt; &amp; &#60;',
  '=cmd|" /C calc"!A0',
  'x'.repeat(10_000),
  '\u05d0\u05d2\u05dd \u202egnp.exe',
  '\u{1f986}\u{1f468}\u200d\u{1f469}\u200d\u{1f467}',
  'a\u0000b\u0008c\u001b[31m\ud800',
  '-->',
  '</style></svg></html>',
];
