import { describe, expect, it } from 'vitest';
import { regionArea, ringArea } from '../../src/geometry/ring.ts';
import type { Drawing } from '../../src/model/drawing.ts';
import { referenceRegion } from '../../src/nesting/verify/reference-geometry.ts';
import { measureLayer, measurePart, measurePattern } from '../../src/pattern/measure.ts';
import {
  type PatternOptions,
  patternFromDrawing,
  tryPatternFromDrawing,
} from '../../src/pattern/pattern-from-drawing.ts';
import { box, circle, drawing, drawn, group, polygon, polyline, shape } from './drawn.ts';

const read = (source: Drawing, options?: PatternOptions) => {
  const { pattern, issues } = patternFromDrawing(source, options);
  return {
    layers: pattern.layers,
    parts: pattern.layers.flatMap(({ parts }) => parts),
    kinds: issues.map(({ kind }) => kind),
    pattern,
  };
};

describe('layers of a drawing', () => {
  it('takes the layers in a layer that only gathers them, however deep', () => {
    const layer = (label: string, ...children: Parameters<typeof group>[0][number][]) =>
      group(children, { label, isLayer: true });
    const source = drawing([
      layer(
        'Scene',
        layer('Hills', shape([box(0, 0, 5, 5)])),
        // A plain group between them, and a switched-off shape, draw nothing of their own.
        group([
          layer('Shore', layer('Dock', shape([box(10, 0, 5, 5)])), layer('Reeds', shape([box(20, 0, 5, 5)]))),
        ]),
        group([shape([box(0, 0, 90, 90)])], { visible: false }),
      ),
    ]);
    const { layers, kinds } = read(source);
    expect(layers.map(({ name }) => name)).toEqual(['Hills', 'Dock', 'Reeds']);
    expect(kinds).toEqual(['hidden-group-left-out']);
  });

  it('takes a layer that draws something besides its layers as one, says so, and names the rest', () => {
    const inner = group([shape([box(0, 0, 5, 5)])], { label: 'Inner', isLayer: true });
    const marked = group([shape([box(10, 0, 5, 5)]), inner], { label: 'Sky', isLayer: true });
    const plain = group([shape([box(30, 0, 5, 5)])], { label: 'plain' });
    const { pattern, issues } = patternFromDrawing(drawing([marked, plain]));
    expect(pattern.layers.map(({ name, parts }) => [name, parts.length])).toEqual([
      ['Sky', 2],
      ['Outside the layers', 1],
    ]);
    expect(issues.map(({ kind, where }) => [kind, where?.layer])).toEqual([
      ['layers-in-layer', 'Sky'],
      ['shapes-outside-layers', 'Outside the layers'],
    ]);
    expect(issues[0].message).toContain('holds the layers "Inner"');
  });

  it('keeps the layers of one wood together where one may be the openings of another', () => {
    const layer = (label: string, ...children: Parameters<typeof group>[0][number][]) =>
      group(children, { label, isLayer: true });
    const body = layer('body', shape([box(0, 0, 40, 90)]));
    const lines = layer('windows', shape([box(10, 10, 20, 20)], { fill: 'none', stroke: 'black' }));
    const filled = layer('windows', shape([box(10, 10, 20, 20)]));
    for (const [windows, options] of [
      [lines, {}],
      [filled, { innerShapes: 'openings' }],
    ] as const) {
      const { layers, parts, kinds } = read(drawing([layer('Lighthouse', body, windows)]), options);
      expect(layers.map(({ name }) => name)).toEqual(['Lighthouse']);
      expect(parts.map(({ region }) => region.openings.length)).toEqual([1]);
      expect(kinds).toContain('layers-in-layer');
    }
    expect(read(drawing([layer('Lighthouse', body, filled)])).layers).toHaveLength(2);
  });

  it('takes the groups of a drawing without marks as layers, looking into a single wrapper', () => {
    const source = drawing([
      group([group([shape([box(0, 0, 5, 5)])], { id: 'a' }), group([shape([box(9, 0, 5, 5)])], { id: 'b' })]),
    ]);
    expect(read(source).layers.map(({ name }) => name)).toEqual(['a', 'b']);
  });

  it('takes a single group whose groups have no names as one layer, with the veins in them', () => {
    const veins = group([drawn([polyline([1, 1], [4, 4])])]);
    const leaf = shape([box(0, 0, 5, 5)]);
    const named = (children: Parameters<typeof group>[0], id: string) => group(children, { id });
    const read1 = (...content: Parameters<typeof group>[0]) => {
      const { layers, parts, kinds } = read(drawing([...content]));
      return [...layers.map(({ name }) => name), ...parts.map((part) => part.veins.length), ...kinds];
    };
    expect(read1(named([leaf, veins], 'Leaf'))).toEqual(['Leaf', 1]);
    expect(read1(named([group([leaf, veins])], 'Leaf'))).toEqual(['Leaf', 1]);
    expect(read1(named([group([leaf]), veins], 'Leaf'))).toEqual(['Leaf', 1]);
    expect(read1(group([leaf, veins]))).toEqual(['Layer 1', 1]);
    // A background beside named groups takes no layer from them.
    const background = shape([box(0, 0, 90, 90)]);
    expect(read1(named([background, named([leaf], 'a'), named([leaf], 'b')], 'Artwork'))).toEqual([
      ...['a', 'b', 'Outside the layers', 0, 0, 0],
      'shapes-outside-layers',
    ]);
  });

  it('tells of a group without a name beside layers that have one, and of none where no group has', () => {
    const reeds = () => group([shape([box(60, 0, 3, 20)])]);
    const hills = group([shape([box(0, 0, 50, 50)])], { id: 'Hills' });
    const { pattern, issues } = patternFromDrawing(drawing([hills, reeds()]));
    expect(pattern.layers.map(({ name }) => name)).toEqual(['Hills', 'Layer 2']);
    expect(issues.map(({ kind, where }) => [kind, where?.layer])).toEqual([['layer-unnamed', 'Layer 2']]);
    expect(read(drawing([reeds(), reeds()])).kinds).toEqual([]);
  });

  it('tells of layers of one name what each is called', () => {
    const fish = (x: number, label: string) => group([shape([box(x, 0, 30, 20)])], { label, isLayer: true });
    const { pattern, issues } = patternFromDrawing(
      drawing([fish(0, 'Fish'), fish(40, 'Reed'), fish(80, 'Fish'), fish(120, 'Fish')]),
    );
    expect(pattern.layers.map(({ name }) => name)).toEqual(['Fish', 'Reed', 'Fish 2', 'Fish 3']);
    expect(issues).toMatchObject([
      { kind: 'layer-name-repeated', severity: 'warning', where: { layer: 'Fish' } },
    ]);
    expect(issues[0].message).toContain('3 layers have this name');
    expect(issues[0].message).toContain('"Fish", "Fish 2", "Fish 3"');
    expect(read(drawing([fish(0, 'Fish'), fish(40, 'Reed')])).kinds).toEqual([]);
    // A layer that holds nothing takes no name from another.
    const empty = group([], { label: 'Fish', isLayer: true });
    expect(read(drawing([empty, fish(0, 'Fish')])).kinds).toEqual([]);
  });

  it('tells of open lines beside the layer in whose part they lie which part that is, and of many at the most 20 times', () => {
    const line = (y: number) => drawn([polyline([10, y], [40, y])]);
    const hills = group([shape([box(0, 0, 50, 50), box(20, 20, 5, 5)], { id: 'hill' })], { id: 'Hills' });
    const told = (...lines: ReturnType<typeof line>[]) =>
      patternFromDrawing(drawing([hills, group(lines, { id: 'veins' })])).issues.filter(
        ({ kind }) => kind === 'open-line-left-out',
      );
    expect(told(line(60))[0].remedy).not.toContain('vein');
    expect(
      told(line(10), line(60)).map(({ remedy }) => remedy?.includes('"hill" of the layer "Hills"')),
    ).toEqual([true, false]);
    const heights = Array.from({ length: 21 }, (_, i) => 60 + i);
    expect(told(...heights.slice(1).map(line))).toHaveLength(20);
    const many = told(...heights.map(line));
    expect(many).toHaveLength(20);
    expect(many[19].message).toMatch(/^2 more open lines/);
    expect(many[19].where?.at).toEqual([10, 79]);
  });

  it('leaves hidden groups out and says so; makes equal names different', () => {
    const source = drawing([
      group([shape([box(0, 0, 5, 5)])], { label: 'L', isLayer: true }),
      group([shape([box(0, 0, 5, 5)])], { label: 'L', isLayer: true }),
      group([shape([box(0, 0, 5, 5)])], { label: 'H', isLayer: true, visible: false }),
    ]);
    const { layers, pattern, kinds } = read(source);
    expect(layers.map(({ name }) => name)).toEqual(['L', 'L 2']);
    expect(pattern.leftOut?.[0]).toEqual({ name: 'H', why: 'switched off' });
    expect(kinds).toContain('hidden-group-left-out');
  });
});

describe('parts of filled shapes', () => {
  it('reads a compound path by its fill rule', () => {
    const rings = [box(0, 0, 90, 90), box(20, 20, 50, 50)];
    const even = read(drawing([shape(rings, { fillRule: 'evenodd' })]));
    expect(even.parts.map(({ region }) => [Math.round(regionArea(region)), region.openings.length])).toEqual([
      [5600, 1],
    ]);
    const nonzero = read(drawing([shape(rings)]));
    expect(
      nonzero.parts.map(({ region }) => [Math.round(regionArea(region)), region.openings.length]),
    ).toEqual([[8100, 0]]);
  });

  it('tells of inner lines that make no opening, for they run the same way round as the outline', () => {
    // An eye drawn like the outline; an opening, turned the other way; a piece of wood in that, which shows by itself.
    const opening = box(10, 10, 8, -8);
    const bird = [box(0, 0, 30, 30), box(2, 2, 4, 4), opening, box(12, 4, 2, 2)];
    const { pattern, issues } = patternFromDrawing(drawing([shape(bird)]));
    expect(pattern.layers[0].parts.map(({ region }) => region.openings.length).sort()).toEqual([0, 1]);
    expect(issues.map(({ kind }) => kind)).toEqual(['inner-line-without-opening']);
    expect(issues[0].message).toMatch(/^1 inner line makes no opening/);
    // None of these has vanished: cut out by the other rule, over each other, drawn twice.
    expect(read(drawing([shape(bird, { fillRule: 'evenodd' })])).kinds).toEqual([]);
    for (const curves of [
      [box(0, 0, 9, 9), box(5, 5, 9, 9)],
      [opening, opening],
    ])
      expect(read(drawing([shape(curves)])).kinds).toEqual([]);
  });

  it('gives two names to two pieces of one path', () => {
    const { parts } = read(drawing([shape([box(0, 0, 5, 5), box(10, 0, 5, 5)], { id: 'pair' })]));
    expect(parts.map(({ name }) => name).sort()).toEqual(['pair', 'pair 2']);
  });

  it('joins openings with a hairline between them, and leaves the others and the pieces in them as they are drawn', () => {
    const hairline = [box(1, 1, 4, 4), box(5.001, 1, 4, 4)];
    const island = [box(20, 20, 20, 20), box(25, 25, 10, 10), box(27, 27, 2, 2)];
    const lone = box(60, 60, 10, 10);
    const { parts } = read(
      drawing([shape([box(0, 0, 100, 100), ...hairline, ...island, lone], { fillRule: 'evenodd' })]),
    );
    const rings = parts.map(({ region }) => [region.outline, ...region.openings].map(ringArea));
    expect(rings.sort((a, b) => b[0] - a[0])).toEqual([
      [expect.closeTo(10_000, 0), expect.closeTo(400, 0), expect.closeTo(32, 0), 100],
      [expect.closeTo(100, 0), 4],
    ]);
  });

  it('unites shapes that overlap and says so, keeps apart shapes that share an edge', () => {
    const overlapping = read(drawing([shape([box(0, 0, 10, 10)]), shape([box(5, 0, 10, 10)])]));
    expect(overlapping.parts).toHaveLength(1);
    expect(measurePart(overlapping.parts[0]).area).toBeCloseTo(150, 6);
    expect(overlapping.kinds).toEqual(['shapes-united']);
    // Rings of one path that are only drawn are each an outline of their own, and overlap as shapes of their own do.
    const ofOnePath = read(drawing([drawn([box(0, 0, 20, 20), box(10, 10, 20, 20)])]));
    expect(ofOnePath.parts.map((part) => Math.round(measurePart(part).area))).toEqual([700]);
    expect(ofOnePath.kinds).toEqual(['shapes-united']);
    const touching = read(drawing([shape([box(0, 0, 10, 10)]), shape([box(10, 0, 10, 10)])]));
    expect(touching.parts).toHaveLength(2);
    expect(touching.kinds).toEqual([]);
  });

  it('swallows or opens an inner filled shape as asked, and says which', () => {
    const source = drawing([shape([box(0, 0, 20, 20)]), shape([box(5, 5, 4, 4)], { fill: 'white' })]);
    const united = read(source);
    expect(united.parts.map(({ region }) => region.openings.length)).toEqual([0]);
    expect(united.kinds).toEqual(['inner-shape-swallowed']);
    // A white page behind a drawing without layers swallows all of it.
    const page = shape([box(0, 0, 20, 20)], { element: '<rect id="page">' });
    const [told] = patternFromDrawing(drawing([page, shape([box(5, 5, 4, 4)])])).issues;
    expect(told.remedy).toContain('delete <rect id="page"> if that is only the background');
    const opened = read(source, { innerShapes: 'openings' });
    expect(
      opened.parts.map((part) => [Math.round(measurePart(part).area), measurePart(part).openings]),
    ).toEqual([[384, 1]]);
    expect(opened.kinds).toEqual(['inner-shape-opened']);
  });

  it('cuts a shape that is drawn twice once, and never out of itself', () => {
    const twice = drawing([shape([circle(30, 30, 20)]), shape([circle(30, 30, 20)])]);
    for (const innerShapes of ['unite', 'openings'] as const) {
      const { parts, kinds } = read(twice, { innerShapes });
      expect(parts.map(({ region }) => region.openings.length)).toEqual([0]);
      expect(kinds).toEqual(['shape-drawn-twice']);
    }
  });
});

describe('colours in a drawing of one layer', () => {
  const told = (source: Drawing, options?: PatternOptions) =>
    patternFromDrawing(source, options).issues.filter(({ kind }) => kind === 'colours-in-layer');
  const hills = shape([box(0, 0, 90, 40)], { fill: '#6B4A33', id: 'hills' });
  const house = shape([box(20, 10, 20, 60)], { fill: 'rgb(181, 83, 60)', label: 'house' });
  const boat = shape([box(100, 0, 20, 10)], { fill: '#b5533c' });

  it('are told with the shapes that have them, as a warning where some were cut as one', () => {
    const [issue, ...others] = told(drawing([hills, house, boat]));
    expect(others).toEqual([]);
    expect(issue).toMatchObject({ severity: 'warning', where: { layer: 'Layer 1' } });
    expect(issue.message).toContain('#6b4a33 (1 shape, "hills"), #b5533c (2 shapes, such as "house")');
    expect(issue.remedy).toContain('a layer of their own');
    expect(told(drawing([hills, boat]))).toMatchObject([{ severity: 'note' }]);
  });

  it('are those of closed lines where nothing is filled', () => {
    const line = (stroke: string, x: number) => drawn([box(x, 0, 20, 10)], { stroke });
    expect(told(drawing([line('red', 0), line('blue', 30)]))).toHaveLength(1);
    const vein = drawn([polyline([2, 2], [8, 8])], { stroke: 'blue' });
    expect(told(drawing([line('red', 0), vein]))).toEqual([]);
    expect(told(drawing([{ ...hills, stroke: 'black' }, line('blue', 10)]))).toEqual([]);
  });

  it('are not told of a straight line that has the fill of shapes nobody set one for, which covers nothing', () => {
    const vein = shape([polyline([2, 2], [30, 30])], { fill: 'black', stroke: 'black' });
    expect(told(drawing([hills, vein]))).toEqual([]);
    const curved = shape([polyline([2, 2], [30, 30], [30, 2])], { fill: 'black', stroke: 'black' });
    expect(told(drawing([hills, curved]))).toHaveLength(1);
  });

  it('are not told of names and numbers of one colour, nor of gradients, of which each shape has its own', () => {
    const inWays = (...fills: string[]) =>
      told(drawing(fills.map((fill, i) => shape([box(50 * i, 0, 20, 10)], { fill }))));
    expect(inWays('#f00', 'red', 'rgb(255 0 0)', '#FF0000FF')).toEqual([]);
    expect(inWays('url(#shade-1)', 'url(#shade-2)')).toEqual([]);
    expect(inWays('url(#shade-1)', 'red')[0].message).toContain(
      'in 2 colours: a gradient or pattern (1 shape)',
    );
  });

  it('are not told of one colour written in two ways, of the white of the paper, nor beside other layers', () => {
    const white = shape([box(5, 5, 9, 9)], { fill: '#FFF' });
    expect(told(drawing([house, boat, white]))).toEqual([]);
    const layers = [group([hills, house], { label: 'A' }), group([boat], { label: 'B' })];
    expect(told(drawing(layers))).toEqual([]);
    const notes = group([drawn([polyline([0, 90], [50, 90])])], { label: 'Notes' });
    expect(told(drawing([layers[0], notes]))).toHaveLength(1);
  });
});

describe('hundreds of rings one in the other', () => {
  const rings = Array.from({ length: 300 }, (_, i) => circle(200, 200, 150 - i / 2));

  it('drawn as lines are parts, each with the next ring as its opening', () => {
    const { parts } = read(drawing(rings.map((ring) => drawn([ring]))));
    expect(parts).toHaveLength(150);
    for (const [i, { region }] of parts.entries()) {
      expect(region.openings).toHaveLength(1);
      const [outer, inner] = [150 - i, 149.5 - i];
      // Circles flattened within 0.01 mm.
      const slack = 2 * Math.PI * (outer + inner) * 0.01;
      expect(Math.abs(regionArea(region) - Math.PI * (outer ** 2 - inner ** 2))).toBeLessThan(slack);
    }
  });

  it('filled in turn are the same parts by the rule of their fill', () => {
    const { parts } = read(drawing([shape(rings, { fillRule: 'evenodd' })]));
    expect(parts.map(({ region }) => region.openings.length)).toEqual(new Array<number>(150).fill(1));
  });

  it('with a filled disc between them cut the disc, and what lies around it', () => {
    const disc = shape([circle(200, 200, 100.25)], { id: 'disc' });
    const { parts } = read(drawing([...rings.map((ring) => drawn([ring])), disc]));
    const named = parts.find(({ name }) => name === 'disc');
    // The ring directly inside is an opening of it.
    expect(named?.region.openings).toHaveLength(1);
    expect(regionArea(named?.region ?? { outline: [], openings: [] })).toBeCloseTo(
      Math.PI * (100.25 ** 2 - 100 ** 2),
      -1,
    );
  });

  it('that cross one another by the thousand are refused, not combined', () => {
    const frames = Array.from({ length: 3000 }, (_, i) => {
      const [x, y] = [(i * 7919) % 1000, (i * 104729) % 1000];
      return drawn([box(x / 50, y / 50, 300 + ((i * 31) % 100) / 2, 300 + ((i * 57) % 100) / 2)]);
    });
    const { pattern, issues } = tryPatternFromDrawing(drawing(frames));
    expect(pattern).toBeUndefined();
    expect(issues.map(({ kind }) => kind)).toEqual(['shapes-too-tangled']);
  });
});

describe('what cannot be a pattern', () => {
  const scribble = (count: number) => {
    let state = 1;
    const next = () => {
      state = (state * 48271) % 2147483647;
      return (state / 2147483647) * 100;
    };
    return polygon(...Array.from({ length: count }, () => [next(), next()] as const));
  };

  it('leaves out a shape that crosses itself without end, and says so', () => {
    const { parts, kinds } = read(drawing([shape([box(200, 0, 20, 20)]), shape([scribble(20_000)])]));
    expect(parts).toHaveLength(1);
    expect(kinds).toEqual(['shape-too-tangled']);
  });

  it.each([shape, drawn])('refuses coordinates no geometry is exact in, by layer and element', (paint) => {
    const far = paint([box(0, 0, 1e9, 20)], { line: 7 });
    const shore = group([shape([box(0, 0, 20, 20)]), far], { label: 'shore' });
    const { pattern, issues } = tryPatternFromDrawing(drawing([shore, group([], { label: 'reed' })]));
    expect(pattern).toBeUndefined();
    expect(issues).toMatchObject([
      { kind: 'coordinate-out-of-range', where: { layer: 'shore', element: far.element, line: 7 } },
    ]);
  });

  it('takes pieces of one path that touch by a hair as one piece, and openings as one opening', () => {
    const touching = read(drawing([shape([box(0, 0, 10, 10), box(10.0005, 2, 10, 5)])]));
    expect(touching.parts).toHaveLength(1);
    expect(measurePart(touching.parts[0]).area).toBeCloseTo(150, 1);
    const openings = [box(0, 0, 40, 20), box(5, 5, 5, 5), box(10.0005, 5, 5, 5)];
    const pierced = read(drawing([shape(openings, { fillRule: 'evenodd' })]));
    expect(pierced.parts.map((part) => measurePart(part).openings)).toEqual([1]);
    const apart = read(drawing([shape([box(0, 0, 10, 10), box(10.1, 2, 10, 5)])]));
    expect(apart.parts).toHaveLength(2);
  });

  it('parts what openings leave that meet in two points: the wood between them hangs by nothing', () => {
    const above = polygon([0, 30], [20, 10], [40, 30], [20, 20]);
    const below = polygon([0, 30], [20, 40], [40, 30], [20, 50]);
    const { parts } = read(drawing([shape([box(-10, 0, 60, 60), above, below], EVENODD)]));
    expect(parts.map(({ region }) => [Math.round(regionArea(region)), region.openings.length])).toEqual([
      [400, 0],
      [3600 - 800, 1],
    ]);
    // The check of a layout takes what hangs by points for no region.
    for (const { region } of parts) expect(referenceRegion(region).fault).toBeUndefined();
  });

  it('makes no part of a sliver of such a path that is hardly wider than a hair', () => {
    const sliver = polygon([30, 0], [30.05, 0.0025], [30, 0.005]);
    const { parts } = read(drawing([shape([box(0, 0, 10, 10), box(10.0005, 2, 10, 5), sliver])]));
    expect(parts.map(({ region }) => Math.round(regionArea(region)))).toEqual([150]);
  });
});

const EVENODD = { fillRule: 'evenodd' } as const;
const BODY = box(10, 10, 40, 40);
const INSET = box(11, 11, 38, 38);
const HOLE = box(20, 20, 20, 20);

describe('parts of drawn lines', () => {
  it('tells outline, opening and island by containment, whatever the direction', () => {
    const rings = [box(0, 0, 90, 90), polygon([10, 10], [10, 80], [80, 80], [80, 10]), box(30, 30, 20, 20)];
    const { parts } = read(drawing(rings.map((ring) => drawn([ring]))));
    const facts = parts.map((part) => [Math.round(measurePart(part).area), measurePart(part).openings]);
    expect(facts.sort()).toEqual([
      [3200, 1],
      [400, 0],
    ]);
  });

  it('keeps parts drawn as lines in the order they are drawn in, whatever their sizes', () => {
    const bird = (label: string, x: number, width: number) => drawn([box(x, 0.1, width, 8)], { label });
    const { parts } = read(
      drawing([group([bird('a', 0, 8), bird('b', 30, 12), bird('c', 60, 8), bird('d', 90, 20)])]),
    );
    expect(parts.map(({ name }) => name)).toEqual(['a', 'b', 'c', 'd']);
  });

  it('saws lines that are drawn twice once, whichever way they run', () => {
    const line = (...points: [number, number][]) => drawn([polyline(...points)]);
    const told = (...shapes: ReturnType<typeof shape>[]) => {
      const { pattern, issues } = patternFromDrawing(drawing(shapes));
      const parts = pattern.layers.flatMap((layer) => layer.parts).length;
      const { area, cutLength } = measurePattern(pattern);
      return [
        parts,
        area,
        cutLength,
        ...issues.map(({ kind, message }) => [kind, /^\d+/.exec(message)?.[0] ?? '1']),
      ];
    };
    const square = shape([box(0, 0, 60, 60)]);
    const bent: [number, number][] = [
      [10, 10],
      [40, 10],
      [40, 50],
    ];
    const twice = ['shape-drawn-twice', '1'];
    expect(told(square, line(...bent), line(...bent))).toEqual([1, 3600, 310, twice]);
    expect(told(square, line(...bent), line(...bent.toReversed()))).toEqual([1, 3600, 310, twice]);
    // A vertex more on the same way is the same line; the straight way between the same ends is another one.
    expect(told(square, line(...bent), line([10, 10], [25, 10], [40, 10], [40, 50]))).toEqual([
      1,
      3600,
      310,
      twice,
    ]);
    expect(told(square, line(...bent), line([10, 10], [40, 50]))[2]).toBe(360);
    const sides = [
      line([0, 0], [60, 0]),
      line([60, 0], [60, 60]),
      line([60, 60], [0, 60]),
      line([0, 60], [0, 0]),
    ];
    expect(told(...sides, ...sides)).toEqual([1, 3600, 240, ['shape-drawn-twice', '4']]);
    // Along the edge of a filled part, round a corner; from edge to edge is no such line.
    expect(told(square, line([20, 0], [60, 0], [60, 30]))).toEqual([1, 3600, 240, twice]);
    expect(told(square, line([20, 0], [20, 30]))).toEqual([1, 3600, 270]);
  });

  it('notes lines drawn so wide that they may be meant as wood, at the finished size', () => {
    const jetty = (strokeWidth: number) =>
      shape([box(0, 0, 60, 60)], { stroke: 'black', strokeWidth, label: 'jetty' });
    const told = (scale: number, ...widths: number[]) =>
      patternFromDrawing(drawing(widths.map((width, i) => group([jetty(width)], { label: `${i}` }))), {
        scale,
      }).issues.map(({ kind, message, where }) => [kind, where?.layer, /[\d.]+ mm/.exec(message)?.[0]]);
    expect(told(1, 12, 2)).toEqual([['line-wide', '0', '12.0 mm']]);
    expect(told(2, 1.5, 0.9)).toEqual([['line-wide', '0', '3.0 mm']]);
  });

  it('tells of veins from edge to edge into how many pieces the part falls, and of no others', () => {
    const vein = (...points: [number, number][]) => drawn([polyline(...points)]);
    const told = (...veins: ReturnType<typeof vein>[]) => {
      const body = shape([box(0, 0, 100, 50), box(20, 10, 20, 20)], { fillRule: 'evenodd' });
      const { pattern, issues } = patternFromDrawing(drawing([group([body, ...veins])]));
      return [
        pattern.layers[0].parts.length,
        ...issues.map(({ message }) => /\d+ pieces/.exec(message)?.[0]),
      ];
    };
    expect(told(vein([70, 0], [70, 50]), vein([85, 0], [85, 50]))).toEqual([1, '3 pieces']);
    expect(told(vein([0, 20], [20, 20]), vein([40, 20], [100, 20]))).toEqual([1, '2 pieces']);
    // Two halves of one line, and one that leaves a cut within the join gap of the edge.
    expect(told(vein([70, 0.05], [75, 25]), vein([75, 25], [70, 50]))).toEqual([1, '2 pieces']);
    expect(told(vein([0, 20], [20, 20]))).toEqual([1]);
    expect(told(vein([70, 1], [70, 50]), vein([85, 0], [85, 49]))).toEqual([1]);
  });

  it('tells of parts that are no more than the stroke of a line', () => {
    const widths = (...curves: ReturnType<typeof box>[]) => {
      const { issues } = patternFromDrawing(drawing([shape(curves, { fillRule: 'evenodd' })]));
      return issues.map(({ kind, message }) => [kind, /wider than [\d.]+/.exec(message)?.[0]]);
    };
    const rim = (width: number) => [box(0, 0, 60, 40), box(width, width, 60 - 2 * width, 40 - 2 * width)];
    // In the corner a circle finds a little more room than along the sides: 2 (2 - sqrt 2) times their width.
    expect(widths(...rim(0.5))).toEqual([['part-only-line', 'wider than 0.59']]);
    expect(widths(box(0, 0, 50, 1.5))).toEqual([['part-only-line', 'wider than 1.50']]);
    expect(widths(...rim(3))).toEqual([]);
    expect(widths(box(0, 0, 2, 1.5))).toEqual([]);
    expect(widths(polygon([0, 0], [9, 0], [9, 9], [200, 9], [200, 9.5], [0, 9.5]))).toEqual([]);
    const remedies = (source: Drawing) => patternFromDrawing(source).issues.map(({ remedy }) => remedy);
    const stroke = drawing([shape(rim(0.5), { fillRule: 'evenodd' })]);
    expect(remedies(stroke)[0]).toContain('with its strokes as lines');
    // Both sides of a pen stroke, traced: nothing there was saved as a filled shape.
    const [first, second] = rim(0.5);
    expect(remedies(drawing([drawn([first]), drawn([second])]))[0]).toContain('Delete one of the two lines');
  });

  it('tells of parts that are mere dots, as a traced scan is full of, once for a layer', () => {
    const told = (...sizes: number[]) =>
      patternFromDrawing(
        drawing(sizes.map((size, i) => shape([box(100 * i, 0, size, size / 2)]))),
      ).issues.map(({ kind, message }) => [kind, message]);
    expect(told(50, 0.1, 0.3)).toEqual([
      ['part-only-speck', expect.stringContaining('2 parts, this one first, are smaller than 1.6 mm')],
    ]);
    expect(told(50, 1.5)).toEqual([['part-only-speck', expect.stringContaining('the part is smaller')]]);
    expect(told(50, 1.7)).toEqual([]);
  });

  it('tells of pieces of one shape that meet at a point only, filled or drawn, and of no others', () => {
    const told = (...shapes: ReturnType<typeof shape>[]) =>
      patternFromDrawing(drawing(shapes)).issues.map(({ kind, message, where }) => [
        kind,
        /^\d+/.exec(message)?.[0],
        where?.at,
      ]);
    // The body and the tail of a fish in one line: it crosses itself at 40, 10.
    const fish = polygon([0, 10], [20, 0], [60, 20], [60, 0], [20, 20]);
    for (const make of [shape, drawn]) {
      expect(told(make([fish]))).toEqual([['pieces-meet-at-point', '2', [40, 10]]]);
    }
    const corners = [box(0, 0, 10, 10), box(10, 10, 10, 10), box(20, 0, 10, 10)];
    expect(told(shape([...corners, box(90, 0, 9, 9)]))).toEqual([['pieces-meet-at-point', '3', [20, 10]]]);
    expect(told(shape([box(0, 0, 10, 10), box(10.1, 10, 10, 10)]))).toEqual([]);
    expect(told(shape([box(0, 0, 10, 10)]), shape([box(10, 10, 10, 10)]))).toEqual([]);
  });

  it('keeps the points of a vein in the order they are drawn in, also of one that begins level', () => {
    const wave: [number, number][] = [
      [40, 50],
      [60, 50],
      [65, 40],
      [70, 60],
    ];
    const { parts } = read(drawing([group([shape([box(0, 0, 100, 100)]), drawn([polyline(...wave)])])]));
    expect(parts.map(({ veins }) => veins)).toEqual([[wave]]);
  });

  it('opens an outline that is drawn twice a hair apart in both, however near the two lie', () => {
    for (const second of [
      // Smaller by 0.01 mm all round, and a diamond with its corners so near to the sides.
      box(10.01, 10.01, 79.98, 79.98),
      polygon([50, 10.01], [89.99, 50], [50, 89.99], [10.01, 50]),
    ]) {
      const rings = [box(10, 10, 80, 80), second, box(40, 40, 10, 10)];
      const { parts } = read(drawing(rings.map((ring) => drawn([ring]))));
      expect(parts.map((part) => [Math.round(measurePart(part).area), measurePart(part).openings])).toEqual([
        [6300, 1],
      ]);
    }
  });

  it('takes a closed line in a filled shape as an opening and an open one as a vein, clipped to the part', () => {
    const { parts, kinds } = read(
      drawing([
        shape([box(0, 0, 40, 20)]),
        drawn([circle(10, 10, 3)]),
        drawn([polyline([20, 10], [60, 10])]),
      ]),
    );
    const measures = measurePart(parts[0]);
    expect(measures.openings).toBe(1);
    expect(measures.veins).toBe(1);
    expect(Math.abs(measures.area - (800 - Math.PI * 9))).toBeLessThan(3e-4 * Math.PI * 9);
    expect(measures.cutLength).toBeCloseTo(120 + 6 * Math.PI + 20, 2);
    expect(kinds).toEqual(['vein-clipped']);
  });

  it.each([
    ['filled, and its lines on top', [shape([BODY]), drawn([BODY, HOLE])], []],
    ['filled with the opening, and its outline on top', [shape([BODY, HOLE], EVENODD), drawn([BODY])], []],
    [
      'its line around a smaller fill',
      [shape([INSET]), drawn([BODY]), drawn([HOLE])],
      ['inner-shape-swallowed'],
    ],
    ['filled twice', [shape([BODY]), shape([BODY]), drawn([HOLE])], ['shape-drawn-twice']],
    ['every line twice', [drawn([BODY, HOLE]), drawn([BODY]), drawn([HOLE])], ['shape-drawn-twice']],
  ])('keeps the opening of a part that is drawn more than once: %s', (_, shapes, told) => {
    const { parts, kinds } = read(drawing(shapes));
    expect(parts.map(measurePart).map(({ area, openings }) => [area, openings])).toEqual([[1200, 1]]);
    expect(kinds).toEqual(told);
  });

  it.each([
    ['filled', [shape([BODY, HOLE], EVENODD)]],
    ['as lines', [drawn([BODY]), drawn([HOLE])]],
    ['its lines as one shape', [drawn([BODY, HOLE])]],
    ['filled, and its opening as a line', [shape([BODY]), drawn([HOLE])]],
  ])('takes ten thousand copies of one part in one place for that part: %s', (_, shapes) => {
    // Compared two by two, these would keep a machine busy for a minute.
    const copies = Array.from({ length: 10_000 }, () => shapes).flat();
    const { parts, kinds } = read(drawing(copies));
    expect(parts.map(measurePart).map(({ area, openings }) => [area, openings])).toEqual([[1200, 1]]);
    expect(kinds).toEqual(Array.from({ length: 9_999 }, () => 'shape-drawn-twice'));
  });

  it('takes a line in a fill that lies in an opening as an opening of that fill', () => {
    const eye = drawn([box(27, 27, 5, 5)]);
    const { parts } = read(drawing([shape([BODY]), drawn([HOLE]), shape([box(25, 25, 10, 10)]), eye]));
    expect(parts.map(measurePart).map(({ area, openings }) => [area, openings])).toEqual([
      [1200, 1],
      [75, 1],
    ]);
  });

  it('joins open lines end to end within the gap, in any order and direction', () => {
    const sides = [
      polyline([0, 0], [10, 0.05]),
      polyline([10, 10], [0, 10]),
      polyline([10, 10.1], [10, 0]),
      polyline([0, 10], [0, 0.1]),
    ];
    const { parts } = read(drawing(sides.map((side) => drawn([side]))));
    expect(parts).toHaveLength(1);
    expect(measurePart(parts[0]).area).toBeCloseTo(100, -1);
    const tight = tryPatternFromDrawing(drawing(sides.map((side) => drawn([side]))), { joinGap: 0.02 });
    expect(tight.pattern).toBeUndefined();
    expect(tight.issues.map(({ kind }) => kind)).toEqual([
      'open-line-left-out',
      'open-line-left-out',
      'open-line-left-out',
      'open-line-left-out',
      'layer-empty',
      'no-parts',
    ]);
    // How much to raise the gap is told, and not only that the two ends of a side are 10 mm apart.
    expect(tight.issues[0].received).toBe(
      'ends 10.00 mm apart, up to 0.10 mm from those of other open lines',
    );
    const far = tryPatternFromDrawing(drawing([drawn([sides[0]]), drawn([sides[1]])]), { joinGap: 0.02 });
    expect(far.issues[0].received).toBe('ends 10.00 mm apart');
  });

  it('takes the loop between ends that reach past one another within the gap for nothing', () => {
    const over = polyline([-0.1, 0], [10, 0], [10, 10], [0, 10], [0, -0.1]);
    const sides = [
      polyline([0, 5], [0, -0.1]),
      polyline([-0.1, 0], [-0.05, 0], [10, 0], [10, 10], [0, 10], [0, 5]),
    ];
    const alone = read(drawing([drawn([over])]));
    expect(alone.kinds).toEqual([]);
    expect(alone.parts.map((part) => measurePart(part).area)).toEqual([100]);
    const [part, ...others] = read(drawing([shape([box(-5, -5, 20, 20)]), drawn([over])])).parts;
    expect(others).toEqual([]);
    expect(measurePart(part)).toMatchObject({ openings: 1, area: 300 });
    // Of lines joined end to end one end is left out, but short pieces next to it cross all the same.
    const joined = read(drawing(sides.map((side) => drawn([side]))));
    expect(joined.kinds).toEqual([]);
    expect(joined.parts.map((each) => measurePart(each).area)).toEqual([100]);
    // A loop that is wider than the gap is a piece, and so is one away from the ends.
    const wide = polyline([-0.5, 0], [10, 0], [10, 10], [0, 10], [0, -0.5], [-0.5, -0.1]);
    expect(read(drawing([drawn([wide])])).kinds).toContain('pieces-meet-at-point');
    const away = polyline([0, 5], [0, 0], [10.1, 0], [10, -0.1], [10, 10], [0, 10], [0, 5]);
    expect(read(drawing([drawn([away])])).kinds).toContain('pieces-meet-at-point');
  });

  it('takes a straight line with the default fill as a line, and reports what paints nothing', () => {
    const { parts, kinds } = read(
      drawing([
        shape([box(0, 0, 40, 20)]),
        shape([polyline([5, 5], [30, 5])], { stroke: 'black' }),
        shape([box(50, 0, 5, 5)], { fill: 'none' }),
      ]),
    );
    expect(parts.map(({ veins }) => veins.length)).toEqual([1]);
    expect(kinds).toEqual(['paints-nothing']);
  });
});

describe('scale', () => {
  const source = drawing([
    group([shape([box(0, 0, 100, 40)], { label: 'hull' }), shape([box(0, 50, 20, 20)], { label: 'flag' })], {
      label: 'Boat',
      isLayer: true,
    }),
  ]);

  it('scales by a factor', () => {
    expect(measurePattern(read(source, { scale: 2 }).pattern).area).toBeCloseTo(4 * 4400, 4);
  });

  it('scales so that a named part, a layer or the drawing gets the finished length', () => {
    const hull = read(source, {
      finishedSize: { layer: 'Boat', part: 'hull', side: 'height', length: 203.2 },
    });
    expect(hull.pattern.scale).toBeCloseTo(203.2 / 40, 5);
    const whole = read(source, { finishedSize: { side: 'height', length: 35 } });
    expect(whole.pattern.scale).toBeCloseTo(0.5, 5);
    const { maxX, maxY } = measureLayer(whole.layers[0]).bounds;
    expect([maxX, maxY]).toEqual([expect.closeTo(50, 3), expect.closeTo(35, 3)]);
  });

  it('measures the true extent of a curve, which corners of its outline miss', () => {
    for (const degrees of [10, 25, 30, 37, 65]) {
      // An ellipse of 80 x 24 mm turned so far is 2 sqrt((40 cos)² + (12 sin)²) wide.
      const [cosine, sine] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
      const start = [50 + 40 * cosine, 50 + 40 * sine] as const;
      const ellipse = {
        kind: 'arc',
        centre: [50, 50],
        u: [40 * cosine, 40 * sine],
        v: [-12 * sine, 12 * cosine],
        ...{ start: 0, sweep: 2 * Math.PI, to: start },
      } as const;
      const moon = drawing([group([shape([{ start, segments: [ellipse], closed: true }])])]);
      const { scale } = read(moon, { finishedSize: { side: 'width', length: 200 } }).pattern;
      expect(Math.abs(2 * Math.hypot(40 * cosine, 12 * sine) * scale - 200)).toBeLessThan(0.001);
    }
  });

  it('refuses a name the drawing does not have and lists those it has', () => {
    const { issues } = tryPatternFromDrawing(source, {
      finishedSize: { layer: 'Boat', part: 'mast', side: 'width', length: 9 },
    });
    expect(issues[0].kind).toBe('finished-size-names-nothing');
    expect(issues[0].expected).toContain('"hull"');
  });

  it('refuses a drawing without a physical size unless a finished size is stated', () => {
    const unsized = { ...source, page: undefined };
    expect(tryPatternFromDrawing(unsized).issues.map(({ kind }) => kind)).toEqual(['no-physical-size']);
    expect(tryPatternFromDrawing(unsized, { scale: 3 }).issues.map(({ kind }) => kind)).toEqual([
      'no-physical-size',
    ]);
    const sized = read(unsized, { finishedSize: { side: 'width', length: 200 } });
    expect(sized.pattern.scale).toBeCloseTo(2, 5);
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('refuses a scale of %d', (scale) => {
    expect(tryPatternFromDrawing(source, { scale }).issues.map(({ kind }) => kind)).toEqual([
      'scale-invalid',
    ]);
    const finished = tryPatternFromDrawing(source, { finishedSize: { side: 'width', length: scale } });
    expect(finished.issues.map(({ kind }) => kind)).toEqual(['finished-size-invalid']);
  });
});

describe('scale from a size far from the drawn one', () => {
  it('measures the named thing at about its finished size', () => {
    // Drawn in units of which the whole is one wide; the small part at the far end would be a speck as drawn.
    const tiny = drawing([
      group(
        [
          shape([box(0, 0, 0.001, 0.001)], { label: 'dot' }),
          shape([box(0.5, 0, 0.5, 0.01)], { label: 'bar' }),
        ],
        {
          label: 'L',
          isLayer: true,
        },
      ),
    ]);
    expect(read(tiny, { finishedSize: { side: 'width', length: 1000 } }).pattern.scale).toBeCloseTo(1000, 1);
    expect(read(tiny, { finishedSize: { part: 'dot', side: 'width', length: 5 } }).pattern.scale).toBeCloseTo(
      5000,
      0,
    );
    // Eight metres wide with gaps of 5 mm that close at the finished 160 mm.
    const large = drawing([
      drawn([polyline([0, 0], [8000, 0], [8000, 2000])]),
      drawn([polyline([8000, 2005], [0, 2005], [0, 4])]),
    ]);
    expect(read(large, { finishedSize: { side: 'width', length: 160 } }).pattern.scale).toBeCloseTo(0.02, 6);
  });

  it('refuses a scale beside a finished size, and limits that make no sense', () => {
    const source = drawing([shape([box(0, 0, 10, 10)])]);
    const first = (options: PatternOptions) => tryPatternFromDrawing(source, options).issues[0].kind;
    expect(first({ scale: 3, finishedSize: { side: 'width', length: 100 } })).toBe('scale-stated-twice');
    for (const tolerance of [0, -1, Number.NaN, 1e3]) expect(first({ tolerance })).toBe('option-invalid');
    for (const joinGap of [-1, Number.NaN, 1e9]) expect(first({ joinGap })).toBe('option-invalid');
  });
});

describe('nothing is dropped in silence', () => {
  const eight = polygon([0, 0], [10, 10], [10, 0], [0, 10]);

  it('keeps both loops of a figure eight, filled or drawn', () => {
    for (const make of [shape, drawn]) {
      const { parts } = read(drawing([make([eight], { fillRule: 'evenodd' })]));
      expect(parts).toHaveLength(2);
      expect(parts.reduce((sum, part) => sum + measurePart(part).area, 0)).toBeCloseTo(50, 4);
    }
  });

  it('reports a speck, filled or drawn', () => {
    for (const make of [shape, drawn]) {
      const { kinds } = read(drawing([shape([box(50, 0, 9, 9)]), make([box(0, 0, 0.005, 0.005)])]));
      expect(kinds).toEqual(['speck-left-out']);
    }
  });

  it('reports the specks of a layer together, as a tracing leaves them by the hundred', () => {
    const specks = Array.from({ length: 200 }, (_, i) => shape([box(i, 20, 0.005, 0.005)]));
    const { kinds } = read(drawing([shape([box(50, 0, 9, 9)]), ...specks]));
    expect(kinds).toEqual(['speck-left-out']);
  });

  it('never looks into a group that is switched off', () => {
    const inside = group([shape([box(0, 0, 9, 9)])], { label: 'deep', isLayer: true });
    const hidden = group([inside], { visible: false });
    const alone = tryPatternFromDrawing(drawing([hidden]));
    expect(alone.issues.map(({ kind }) => kind)).toEqual(['hidden-group-left-out', 'no-parts']);
    const { layers, kinds } = read(
      drawing([hidden, group([shape([box(20, 0, 9, 9)])], { label: 'L', isLayer: true })]),
    );
    expect(layers.map(({ name }) => name)).toEqual(['L']);
    expect(kinds).toEqual(['hidden-group-left-out']);
  });

  it('paints shapes one over the other in their order where inner ones are openings', () => {
    // Two openings, of which the second lies half in the first and so adds a quarter; one in that quarter; a shape
    // beside the plate, and an opening across the edge that the two had.
    const boxes = [box(0, 0, 100, 100), box(10, 10, 10, 10), box(15, 15, 10, 10), box(16, 16, 4, 4)];
    const beside = [box(95, 0, 10, 10), box(94, 2, 8, 4), box(40, 40, 5, 5)];
    const painted = drawing([...boxes, ...beside].map((curve) => shape([curve])));
    const { parts, kinds } = read(painted, { innerShapes: 'openings' });
    const measured = parts.map((part) => [measurePart(part).area, measurePart(part).openings]);
    expect(measured).toEqual([[expect.closeTo(10_000 - 100 + 25 - 16 + 50 - 32 - 25, 3), 4]]);
    expect(kinds.map((kind) => kind.slice(-6))).toEqual([
      'opened',
      'united',
      'opened',
      'united',
      'opened',
      'opened',
    ]);
  });

  it('cuts out an inner shape, and gives what is painted in the opening as an island', () => {
    const nested = [box(0, 0, 40, 40), box(5, 5, 30, 30), box(15, 15, 10, 10)].map((curve) => shape([curve]));
    const { parts, kinds } = read(drawing(nested), { innerShapes: 'openings' });
    expect(parts.map((part) => Math.round(measurePart(part).area)).sort((a, b) => a - b)).toEqual([100, 700]);
    expect(kinds).toEqual(['inner-shape-opened']);
  });

  it('cuts one out of the other as often as shapes lie in one another, and heeds one that reaches out of its opening', () => {
    const sides = Array.from({ length: 40 }, (_, i) => 200 - 5 * i);
    const nested = sides.map((side) => box(100 - side / 2, 100 - side / 2, side, side));
    // A bar from the second ring to the innermost, over the 18 openings between them.
    const all = [...nested, box(99.5, 6, 1, 91)];
    const { parts } = read(drawing(all.map((curve) => shape([curve]))), { innerShapes: 'openings' });
    const ringAreas = sides.flatMap((side, i) => (i % 2 === 0 ? [side ** 2 - (sides[i + 1] ?? 0) ** 2] : []));
    const [first, ...united] = ringAreas;
    const area = united.reduce((sum, each) => sum + each, 0) + 18 * 2.5;
    const areas = parts.map((part) => measurePart(part).area).sort((a, b) => a - b);
    expect(areas).toEqual([expect.closeTo(first, 3), expect.closeTo(area, 3)]);
  });

  it('paints targets on a plate alike whether each is drawn whole or ring by ring, and what is drawn over them all', () => {
    const rings = [10, 60].map((x) =>
      [30, 20, 10].map((side) => box(x - side / 2 + 15, 50 - side / 2, side, side)),
    );
    const byRing = [0, 1, 2].flatMap((i) => rings.map((target) => target[i]));
    for (const drawn of [rings.flat(), byRing]) {
      // The bar covers 2 mm of either target and of the plate between them, and is united with all.
      const all = [box(0, 0, 100, 100), ...drawn, box(0, 49, 110, 2)];
      const { parts } = read(drawing(all.map((curve) => shape([curve]))), { innerShapes: 'openings' });
      const measured = parts.map((part) => [measurePart(part).area, measurePart(part).openings]);
      const solid = 10_000 - 2 * (900 - 400 + 100) + 2 * 2 * (30 - 20 + 10) + 10 * 2;
      expect(measured).toEqual([[expect.closeTo(solid, 3), 8]]);
    }
  });
});

describe('measuring', () => {
  // Closed forms of the circle and of regular polygons (any geometry handbook).
  it('measures a circle within 0.03 % whatever its size', () => {
    for (const r of [0.5, 5, 50, 500]) {
      const { parts } = read(drawing([shape([circle(1000, 1000, r)])]));
      const { area, perimeter, cutLength } = measurePart(parts[0]);
      expect(Math.abs(area / (Math.PI * r * r) - 1)).toBeLessThan(3e-4);
      expect(Math.abs(perimeter / (2 * Math.PI * r) - 1)).toBeLessThan(1.5e-4);
      expect(cutLength).toBe(perimeter);
    }
  });

  it.each([3, 5, 8, 12])('measures a regular polygon of %d sides', (n) => {
    const points = Array.from({ length: n }, (_, i) => {
      const angle = (2 * Math.PI * i) / n;
      return [50 + 30 * Math.cos(angle), 50 + 30 * Math.sin(angle)] as const;
    });
    const { parts } = read(drawing([shape([polygon(...points)])]));
    const { area, perimeter } = measurePart(parts[0]);
    expect(area).toBeCloseTo((n / 2) * 900 * Math.sin((2 * Math.PI) / n), 2);
    expect(perimeter).toBeCloseTo(60 * n * Math.sin(Math.PI / n), 2);
  });

  it('adds parts to layers and layers to the set', () => {
    const { pattern, layers } = read(
      drawing([
        group([shape([box(0, 0, 10, 10)])], { id: 'a' }),
        group([shape([box(20, 0, 10, 5)])], { id: 'b' }),
      ]),
    );
    expect(layers.map((layer) => Math.round(measureLayer(layer).area))).toEqual([100, 50]);
    expect(measurePattern(pattern)).toMatchObject({
      openings: 0,
      veins: 0,
      bounds: { minX: 0, minY: 0, maxX: 30, maxY: 10 },
    });
    expect(measurePattern(pattern).cutLength).toBeCloseTo(70, 6);
  });
});
