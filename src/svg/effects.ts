import { ownValue, type Style } from './cascade.ts';
import type { SvgElement } from './element.ts';
import { type IssueLog, quote } from './issue-log.ts';

/** Reports effects that change what shows but not the shapes as drawn, so that nobody is surprised by the cut. */
export function reportEffects(element: SvgElement, style: Style, log: IssueLog): void {
  for (const property of ['mask', 'filter'] as const) {
    const value = ownValue(style, property);
    if (value === 'none') continue;
    log.warn(`${property}-ignored`, `${property} is not applied: the whole shape is taken`, element, {
      received: quote(value),
      remedy: 'Cut the shapes to their visible part in the drawing program.',
    });
  }
}

/** The elements that markers are drawn on (SVG 2 section 13.7). */
const MARKED = new Set(['path', 'line', 'polyline', 'polygon']);

/** Reports arrowheads and the like, which are left out. */
export function reportMarkers(element: SvgElement, { inherited }: Style, log: IssueLog): void {
  if (!MARKED.has(element.name)) return;
  for (const property of ['marker-start', 'marker-mid', 'marker-end'] as const) {
    if (inherited[property] === 'none') continue;
    log.warn('marker-left-out', `${property} is left out`, element, {
      received: quote(inherited[property]),
      remedy: 'Turn the arrowhead into a path if it is to be cut.',
    });
  }
}
