import type { SvgElement } from './element.ts';
import { kindOf } from './element-kinds.ts';
import type { IssueLog } from './issue-log.ts';
import { isLayer, labelOf } from './names.ts';

/** What of one layer does not show for one reason. */
interface Missing {
  readonly first: SvgElement;
  readonly layer: SvgElement | undefined;
  readonly why: string;
  count: number;
}

/**
 * Shapes that stand in the drawing and do not show: they are not cut, and whoever means them to be would not know why
 * they are missing. Told once for each layer and reason, as a drawing may hold thousands.
 */
export class NotShown {
  private readonly missing = new Map<SvgElement | undefined, Map<string, Missing>>();

  add(element: SvgElement, why: string): void {
    const layer = layerAround(element);
    const ofLayer = this.missing.get(layer) ?? new Map<string, Missing>();
    this.missing.set(layer, ofLayer);
    const known = ofLayer.get(why);
    if (known === undefined) ofLayer.set(why, { first: element, layer, why, count: 1 });
    else known.count++;
  }

  report(log: IssueLog): void {
    for (const ofLayer of this.missing.values()) {
      for (const { first, layer, why, count } of ofLayer.values()) {
        const name = layer === undefined ? undefined : (labelOf(layer) ?? layer.attributes.get('id'));
        const others = count === 1 ? '' : ` and ${count - 1} more`;
        const isGroup = kindOf(first.name).kind === 'group';
        const where = name === undefined ? '' : ` of "${name}"`;
        log.note(
          'shape-not-shown',
          `this ${isGroup ? 'group' : 'shape'}${others}${where} ${count === 1 ? 'is' : 'are'} not shown and left out: ${why}`,
          first,
          {
            remedy: 'Make it show in the drawing program if it is to be cut.',
          },
        );
      }
    }
  }
}

/** The marked layer around an element, else the outermost group; undefined for what stands in none. */
function layerAround(element: SvgElement): SvgElement | undefined {
  let outermost: SvgElement | undefined;
  for (let e = element.parent; e?.parent !== undefined; e = e.parent) {
    if (isLayer(e)) return e;
    outermost = e;
  }
  return outermost;
}
