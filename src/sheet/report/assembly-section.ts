import type { AssemblyPlan } from '../../model/assembly.ts';
import { namesNotInBatch, notInBatch } from '../../model/not-in-batch.ts';
import type { Pattern } from '../../model/pattern.ts';
import { partKey } from '../../model/same-part.ts';
import { formatThickness, formatThin } from '../../units/distances.ts';
import { type DisplayUnit, formatLength, MM_PER_UNIT } from '../../units/length.ts';
import { GRAMS_PER_OUNCE } from '../../units/measure.ts';
import { drawingToSvg } from '../marks/marks-to-svg.ts';
import { shortened } from '../marks/text-width.ts';
import { assemblyPicture } from './assembly-picture.ts';
import { type Html, html, htmlFromSvg, LONGEST_NAME, named, numbers, table, words } from './html.ts';

/** How the piece goes together: picture, depths, joints; lengths in the unit of the maker. */
export function assemblySection(pattern: Pattern, plan: AssemblyPlan, unit: DisplayUnit): Html {
  const length = (mm: number) => formatLength(mm, unit);
  const depth = (mm: number) => formatThickness(mm, unit);
  const picture = drawingToSvg(assemblyPicture(pattern, plan, unit), {
    title: 'Front and side view of the piece',
    description:
      'Left: from the front, parts with their numbers, where glue goes dashed. Right: from the side.',
    idPrefix: 'assembly-',
  });
  return html('section', {}, [
    html('h2', {}, ['Glue-up']),
    ...notHere(pattern, plan),
    html('p', {}, [
      `How the layers of one piece go together: ${length(plan.width)} wide, ${length(plan.height)} high, ${depth(plan.depth)} deep.`,
      plan.weight === undefined ? '' : ` About ${weight(1000 * plan.weight, unit)} at 12 % moisture.`,
      plan.joints.length === 0
        ? ' No part touches another: nothing is glued.'
        : ` ${glueText(plan.glueGrams, unit)} of glue, kept back from the edges of each joint so that none shows.`,
    ]),
    html('figure', {}, [
      htmlFromSvg(picture),
      html('figcaption', {}, [
        'From the front, and from the side with the depths from the back. A number stands where its part can be seen; dashed: where the glue goes, under the part in front.',
      ]),
    ]),
    table(
      'Parts in the order of gluing: where the back and the front of each lie, measured from the back of the piece, and whether its straight bottom stands on the plane of the others',
      [numbers('No.'), words('Layer'), words('Part'), ...['Back', 'Front', 'Bottom'].map(numbers)],
      plan.parts.map((part, i) => [
        `${i + 1}`,
        named(shortened(part.layer, LONGEST_NAME)),
        named(shortened(part.part, LONGEST_NAME)),
        depth(part.back),
        depth(part.front),
        part.offPlane === undefined ? 'does not stand' : offText(part.offPlane, unit),
      ]),
    ),
    ...(plan.joints.length === 0 ? [] : [jointTable(plan, unit)]),
  ]);
}

function jointTable({ joints, parts }: AssemblyPlan, unit: DisplayUnit): Html {
  const order = new Map(parts.map((part, i) => [partKey(part), i + 1]));
  const hasFree = joints.some(({ grains }) => grains === 'any way');
  return table(
    `Joints: what touches, what is glued of it, and how far the two layers move apart across the grain when the moisture changes (flat-sawn wood, by the method named${hasFree ? '; of free grain, as copies of the part may lie where they move most' : ''})`,
    [
      words('Front on behind'),
      ...['Contact', 'Glued', 'Moves apart'].map(numbers),
      words('Method'),
      words('Grain'),
    ],
    joints.map((joint) => [
      `${order.get(partKey(joint.front))} on ${order.get(partKey(joint.behind))}${joint.copies === 1 ? '' : `, ${joint.copies} times`}`,
      area(joint.contactArea, unit),
      joint.glueArea === 0 ? 'no room' : area(joint.glueArea, unit),
      joint.movement === undefined ? 'unknown' : formatThin(joint.movement, unit),
      joint.movementMethod,
      joint.grains,
    ]),
  );
}

/** Where some parts are not cut in this batch: all that follows is of the others, as if they were glued by themselves. */
function notHere(pattern: Pattern, { parts }: AssemblyPlan): Html[] {
  const names = namesNotInBatch(pattern, notInBatch(pattern, parts));
  if (names.length === 0) return [];
  return [
    html('p', {}, [
      'Not in this batch, and left out here: ',
      named(names.map((name) => shortened(name, LONGEST_NAME)).join(', ')),
      '. Depths and joints are those of the parts below among themselves.',
    ]),
  ];
}

function offText(off: number, unit: DisplayUnit): string {
  if (Math.abs(off) < 0.005) return 'on the plane';
  const side = off > 0 ? 'above' : 'below';
  return Math.abs(off) <= STANDS_WITHIN
    ? `${formatThin(Math.abs(off), unit)} ${side}`
    : `hangs ${formatLength(Math.abs(off), unit)} ${side}`;
}

/** A bottom farther off the plane than this hangs on purpose, mm: the glue-up warns of the nearer ones only. */
const STANDS_WITHIN = 2;
const SQUARE_INCH = MM_PER_UNIT.in ** 2;

function area(squareMillimetres: number, unit: DisplayUnit): string {
  return unit === 'in'
    ? `${(squareMillimetres / SQUARE_INCH).toFixed(2)} sq in`
    : `${(squareMillimetres / 100).toFixed(1)} cm²`;
}

function weight(grams: number, unit: DisplayUnit): string {
  return unit === 'in' ? `${(grams / GRAMS_PER_OUNCE).toFixed(1)} oz` : `${grams.toFixed(0)} g`;
}

/** So little glue that no figure helps, oz. */
const LEAST_OUNCES = 0.01;

function glueText(grams: AssemblyPlan['glueGrams'], unit: DisplayUnit): string {
  // A range that its decimals make one number is written as that number.
  const range = (amounts: readonly number[], decimals: number) =>
    [...new Set(amounts.map((each) => each.toFixed(decimals)))].join(' to ');
  if (unit === 'mm') return `${range(grams, 1)} g`;
  const ounces = grams.map((each) => each / GRAMS_PER_OUNCE);
  return ounces[1] < LEAST_OUNCES ? `Less than ${LEAST_OUNCES} oz` : `${range(ounces, 2)} oz`;
}
