import type { DrawingShape } from '../model/drawing.ts';
import type { Style } from './cascade.ts';
import type { SvgElement } from './element.ts';
import type { IssueLog } from './issue-log.ts';

/**
 * Lines that are drawn in dashes: they often stand for folds, guides and middles, and are sawn like any other. Told once
 * for a drawing, as it may have many.
 */
export class Dashes {
  private first: SvgElement | undefined;
  private count = 0;

  /** Counts a shape that is nothing but a dashed line; around a fill there is an edge to saw anyway. */
  add(element: SvgElement, { fill, stroke }: DrawingShape, { inherited }: Style): void {
    // Of no dash at all programs write `none` or lengths of 0.
    if (fill !== 'none' || stroke === 'none' || !/[1-9]/.test(inherited['stroke-dasharray'])) return;
    this.first ??= element;
    this.count++;
  }

  report(log: IssueLog): void {
    if (this.first === undefined) return;
    const message =
      this.count === 1
        ? 'the line is dashed; it is sawn whole'
        : `${this.count} lines, this one first, are dashed; they are sawn whole`;
    log.note('line-dashed', message, this.first, {
      remedy: 'Switch off or delete what is only a guide.',
    });
  }
}
