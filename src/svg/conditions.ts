import type { SvgElement } from './element.ts';
import { kindOf } from './element-kinds.ts';

/** The language a still drawing is read in, for drawings that hold a version for each. */
const LANGUAGE = 'en';

/**
 * Whether an element's conditions hold (SVG 2 section 5.9 "Conditional processing"): no extension of any drawing
 * program is known here, and text of a version for another language is not wanted.
 */
export function conditionsHold(element: SvgElement): boolean {
  // An empty list asks for nothing known either, but programs write it and mean no condition.
  const extensions = element.attributes.get('requiredExtensions');
  if (extensions !== undefined && extensions.trim() !== '') return false;
  const languages = element.attributes.get('systemLanguage');
  if (languages === undefined) return true;
  return languages.split(',').some((language) => language.trim().toLowerCase().split('-')[0] === LANGUAGE);
}

/** The one child of a `switch` that is painted: the first that can be and whose conditions hold. */
export function chosenChild(element: SvgElement): SvgElement | undefined {
  return element.children.find((child) => kindOf(child.name).kind !== 'silent' && conditionsHold(child));
}
