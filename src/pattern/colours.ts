import { counted, firstFew } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { DrawingShape } from '../model/drawing.ts';
import type { LayerShapes } from './layers.ts';

/** At most so many colours are named: a drawing with more is shaded rather than coloured by wood. */
const MOST_NAMED = 8;

/** What tells that shapes of a layer were lost in one another, as those of several woods in one layer are. */
const LOST_IN_ONE: ReadonlySet<string> = new Set(['shapes-united', 'inner-shape-swallowed']);

/** The colour of paper: a background, or what is painted over to look like an opening, rather than a wood. */
const PAPER = '#ffffff';

/**
 * What is told of a drawing whose only layer has several colours: whoever draws without layers may mean one wood by each of
 * them, and nothing else would say that all of it is cut from one.
 *
 * @param told what is told of the layer already
 */
export function coloursIssue(
  { name, shapes }: LayerShapes,
  told: readonly Pick<Issue, 'kind'>[],
  file: string,
): Issue[] {
  const colours = coloursOf(shapes);
  if (colours.size - (colours.has(PAPER) ? 1 : 0) < 2) return [];
  const named = [...colours].map(([colour, members]) => `${colour} (${whichOf(members)})`);
  return [
    {
      kind: 'colours-in-layer',
      severity: told.some(({ kind }) => LOST_IN_ONE.has(kind)) ? 'warning' : 'note',
      message: `the drawing has one layer, cut from one wood, but shapes of ${colours.size} colours: ${firstFew(named, MOST_NAMED)}`,
      remedy:
        'Where each colour is a wood, move the shapes of each to a layer of their own in the drawing program, and write in the job which is which: "layers": { "NAME OF THE LAYER": { "species": "walnut" } }.',
      where: { file, layer: name },
    },
  ];
}

/** Shapes by what they are filled with; where nothing is filled, closed lines by their colour, as veins may have one too. */
function coloursOf(shapes: readonly DrawingShape[]): Map<string, DrawingShape[]> {
  const isFilled = shapes.some(({ fill }) => fill !== 'none');
  const colours = new Map<string, DrawingShape[]>();
  for (const shape of shapes) {
    const isClosed = shape.curves.some(({ closed }) => closed);
    const colour = isFilled ? shape.fill : isClosed ? shape.stroke : 'none';
    if (colour === 'none') continue;
    const key = alike(colour);
    const known = colours.get(key);
    if (known === undefined) colours.set(key, [shape]);
    else known.push(shape);
  }
  return colours;
}

/** A colour in one of the ways to write it: `#FFF` and `rgb(255, 255, 255)` are `#ffffff`. */
function alike(colour: string): string {
  const lower = colour.toLowerCase().replace(/\s+/g, '');
  if (/^#[0-9a-f]{3}$/.test(lower)) return lower.replace(/[0-9a-f]/g, '$&$&');
  const parts = /^rgb\((\d+),(\d+),(\d+)\)$/.exec(lower)?.slice(1);
  if (parts === undefined) return WRITTEN_OUT.get(lower) ?? lower;
  return `#${parts.map((part) => Math.min(255, Number(part)).toString(16).padStart(2, '0')).join('')}`;
}

/** The two that programs write by name as well as by number. */
const WRITTEN_OUT: ReadonlyMap<string, string> = new Map([
  ['black', '#000000'],
  ['white', PAPER],
]);

function whichOf(shapes: readonly DrawingShape[]): string {
  const [first] = shapes.flatMap(({ label, id }) => label ?? id ?? []);
  const which = first === undefined ? '' : `, ${shapes.length === 1 ? '' : 'such as '}"${first}"`;
  return `${counted(shapes.length, 'shape')}${which}`;
}
