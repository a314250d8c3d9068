import type { AssemblyPlan, StandingPart } from '../model/assembly.ts';
import type { Pattern } from '../model/pattern.ts';
import { type DisplayUnit, formatLength } from '../units/length.ts';
import { assemblyPicture } from './assembly-picture.ts';
import { type Html, html, htmlFromSvg, named, numbers, table, words } from './html.ts';
import { drawingToSvg } from './marks/marks-to-svg.ts';

/** How the piece goes together: picture, depths, joints. */
export function assemblySection(pattern: Pattern, plan: AssemblyPlan, unit: DisplayUnit): Html {
  const length = (mm: number) => formatLength(mm, unit);
  const order = new Map(plan.parts.map((part, i) => [keyOf(part), i + 1]));
  const picture = drawingToSvg(assemblyPicture(pattern, plan), {
    title: 'Front and side view of the piece',
    description:
      'Left: from the front, parts with their numbers, where glue goes dashed. Right: from the side.',
    idPrefix: 'assembly-',
  });
  return html('section', {}, [
    html('h2', {}, ['Glue-up']),
    html('p', {}, [
      `${length(plan.width)} wide, ${length(plan.height)} high, ${length(plan.depth)} deep.`,
      plan.weight === undefined ? '' : ` About ${(1000 * plan.weight).toFixed(0)} g at 12 % moisture.`,
      ` ${plan.glueGrams.map((grams) => grams.toFixed(1)).join(' to ')} g of glue for one piece, kept back from the edges of each joint.`,
    ]),
    html('figure', {}, [
      htmlFromSvg(picture),
      html('figcaption', {}, [
        'From the front and from the side, back at the left. Dashed: where the glue goes.',
      ]),
    ]),
    table(
      'Parts in the order of gluing, depths from the back',
      [
        numbers('No.'),
        words('Layer'),
        words('Part'),
        ...['Back', 'Front', 'Bottom off the plane'].map(numbers),
      ],
      plan.parts.map((part, i) => [
        `${i + 1}`,
        named(part.layer),
        named(part.part),
        length(part.back),
        length(part.front),
        part.offPlane === undefined ? 'does not stand' : offText(part.offPlane),
      ]),
    ),
    table(
      'Joints. Movement is across the grain, for flat-sawn wood, by the method named',
      [
        words('Front on behind'),
        ...['Contact', 'Glued', 'Moves apart'].map(numbers),
        words('Method'),
        words('Grain'),
      ],
      plan.joints.map((joint) => [
        `${order.get(keyOf(joint.front))} on ${order.get(keyOf(joint.behind))}`,
        area(joint.contactArea),
        area(joint.glueArea),
        `${joint.movement.toFixed(2)} mm`,
        joint.movementMethod,
        joint.crossed ? 'crossed' : 'alike',
      ]),
    ),
  ]);
}

function keyOf({ layer, part }: Pick<StandingPart, 'layer' | 'part'>): string {
  return JSON.stringify([layer, part]);
}

function offText(off: number): string {
  return Math.abs(off) < 0.005 ? '0' : `${Math.abs(off).toFixed(2)} mm ${off > 0 ? 'above' : 'below'}`;
}

function area(squareMillimetres: number): string {
  return `${(squareMillimetres / 100).toFixed(1)} cm2`;
}
