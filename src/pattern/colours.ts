import { counted, firstFew } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import type { DrawingShape } from '../model/drawing.ts';
import type { Layer } from '../model/pattern.ts';
import { colourKey } from './colour-notation.ts';

/** At most so many colours are named: a drawing with more is shaded rather than coloured by wood. */
const MOST_NAMED = 8;

/** What tells that shapes of a layer were lost in one another, as those of several woods in one layer are. */
const LOST_IN_ONE: ReadonlySet<string> = new Set(['shapes-united', 'inner-shape-swallowed']);

/** The colour of paper: a background, or what is painted over to look like an opening, rather than a wood. */
const PAPER = '#ffffff';

/** The shapes of a layer that outlines and openings are cut by. */
export interface CutShapes {
  /** Those that fill an area: a straight line has a fill too, by default, that covers nothing. */
  readonly filled: ReadonlySet<DrawingShape>;
  /** Those that draw a closed line and fill nothing. */
  readonly drawn: ReadonlySet<DrawingShape>;
}

/** A layer as it was read, with what is told of it already. */
interface LayerInColour {
  readonly layer: Pick<Layer, 'name'>;
  readonly shapes: CutShapes;
  readonly issues: readonly Pick<Issue, 'kind'>[];
}

/**
 * What is told of a drawing whose only layer has several colours: whoever draws without layers may mean one wood by each of
 * them, and nothing else would say that all of it is cut from one.
 */
export function coloursIssue({ layer, shapes, issues }: LayerInColour, file: string): Issue[] {
  const colours = coloursOf(shapes);
  if (colours.size - (colours.has(PAPER) ? 1 : 0) < 2) return [];
  const named = [...colours].map(([colour, members]) => `${colour} (${whichOf(members)})`);
  return [
    {
      kind: 'colours-in-layer',
      severity: issues.some(({ kind }) => LOST_IN_ONE.has(kind)) ? 'warning' : 'note',
      message: `all parts are in one layer, cut from one wood, but in ${colours.size} colours: ${firstFew(named, MOST_NAMED)}`,
      remedy:
        'Where each colour is a wood, move the shapes of each to a layer of their own in the drawing program, and write in the job which is which: "layers": { "NAME OF THE LAYER": { "species": "walnut" } }.',
      where: { file, layer: layer.name },
    },
  ];
}

/** Shapes by what they are filled with; where nothing is filled, closed lines by their colour, as veins may have one too. */
function coloursOf({ filled, drawn }: CutShapes): Map<string, DrawingShape[]> {
  const colours = new Map<string, DrawingShape[]>();
  for (const shape of filled.size > 0 ? filled : drawn) {
    const key = colourKey(filled.size > 0 ? shape.fill : shape.stroke);
    const known = colours.get(key);
    if (known === undefined) colours.set(key, [shape]);
    else known.push(shape);
  }
  return colours;
}

function whichOf(shapes: readonly DrawingShape[]): string {
  const [first] = shapes.flatMap(({ label, id }) => label ?? id ?? []);
  const which = first === undefined ? '' : `, ${shapes.length === 1 ? '' : 'such as '}"${first}"`;
  return `${counted(shapes.length, 'shape')}${which}`;
}
