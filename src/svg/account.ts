import type { ElementAccount } from '../model/drawing.ts';
import { describeElement, type SvgElement } from './element.ts';

/** The account of every element: what it became, or why it was left out. One entry each, however often it is used. */
export class Account {
  private readonly entries = new Map<SvgElement, ElementAccount>();

  /** Enters an element; one that became something somewhere keeps that entry. */
  enter(element: SvgElement, became: ElementAccount['became'], why?: string): void {
    const before = this.entries.get(element);
    if (before !== undefined && before.became !== 'nothing') return;
    this.entries.set(element, { element: describeElement(element), line: element.line, became, why });
  }

  /** All entries in the order the elements were first met. */
  list(): readonly ElementAccount[] {
    return [...this.entries.values()];
  }
}
