import { firstFew } from '../issues/counted.ts';
import type { Issue } from '../issues/issue.ts';
import { nearestName } from '../issues/nearest-name.ts';
import type { Layout } from '../model/layout.ts';
import { namesNotInBatch, notInBatch } from '../model/not-in-batch.ts';
import type { Pattern } from '../model/pattern.ts';
import type { FindingGroup, PatternCheck } from '../model/pattern-check.ts';
import { isSamePart, type PartName, partKey } from '../model/same-part.ts';
import { groupFindings } from '../pattern/group-findings.ts';
import { type Job, type JobLayer, PLAIN_LAYER } from './job-schema.ts';

/** Which parts a job cuts: after an accident some are cut again, and the others have 0 copies in a set. */

/** What a job says of a layer, or what holds where it says nothing. */
export function rulesOf({ layers }: Pick<Job, 'layers'>, layer: string): JobLayer {
  return Object.hasOwn(layers, layer) ? layers[layer] : PLAIN_LAYER;
}

/** Copies of a part in one set: as its own name says, else as the layer does. */
export function copiesInSet({ copiesPerSet, copiesOf = {} }: JobLayer, part: string): number {
  return Object.hasOwn(copiesOf, part) ? copiesOf[part] : copiesPerSet;
}

/** What of findings, or of anything else that is told of parts, is told of the parts that are cut. */
export function ofPartsCut<T extends PartName>(
  told: readonly T[],
  { setContents }: Pick<Layout, 'setContents'>,
): T[] {
  const cut = new Set(setContents.map(partKey));
  return told.filter((each) => cut.has(partKey(each)));
}

/** The findings of the parts that are cut, grouped anew: of parts alike some may not be cut. */
export function groupsOfPartsCut(
  { findings }: Pick<PatternCheck, 'findings'>,
  layout: Pick<Layout, 'setContents'>,
): FindingGroup[] {
  return groupFindings(ofPartsCut(findings, layout));
}

/** At most so many parts are named in a note. */
const MOST_NAMED = 8;

/**
 * What is to be told of the parts that are cut and those that are not.
 *
 * @param cut the kinds of parts that are in the batch
 */
export function cutIssues(job: Job, pattern: Pattern, cut: readonly PartName[], file: string): Issue[] {
  const unknown = unknownParts(job, pattern, file);
  // What is cut is in doubt as long as a name is.
  return unknown.length > 0 ? unknown : leftIssues(job, pattern, cut, file);
}

function unknownParts(job: Job, pattern: Pattern, file: string): Issue[] {
  return pattern.layers.flatMap(({ name, parts }) => {
    const { copiesOf = {} } = rulesOf(job, name);
    const names = parts.map((part) => part.name);
    return Object.keys(copiesOf)
      .filter((part) => !names.includes(part))
      .map((part): Issue => {
        const meant = nearestName(part, names);
        return {
          kind: 'part-unknown',
          severity: 'error',
          message: 'the job says how many copies there are of a part that the layer does not have',
          received: `"${part}"`,
          ...(meant === undefined ? {} : { expected: `perhaps "${meant}"` }),
          remedy: 'Write the name as the drawing has it: `fretlay measure` lists the parts.',
          where: { file, field: `layers.${name}.copiesOf.${part}` },
        };
      });
  });
}

function leftIssues(job: Job, pattern: Pattern, cut: readonly PartName[], file: string): Issue[] {
  const left = notInBatch(pattern, cut);
  if (left.length === 0) return [];
  if (cut.length === 0) {
    return [
      {
        kind: 'nothing-to-cut',
        severity: 'error',
        message: 'no part of the pattern is cut in this batch: all have 0 copies in a set',
        expected: 'a part or layer with 1 copy or more',
        remedy: 'Give the parts to be cut their number under "copiesPerSet" or "copiesOf".',
        where: { file, field: 'layers' },
      },
    ];
  }
  const names = namesNotInBatch(pattern, left);
  return [
    {
      kind: 'part-not-in-batch',
      severity: 'note',
      message: `not cut in this batch: ${firstFew(names, MOST_NAMED)}. Sets, hours, costs, prices and glue-up are those of the other parts alone, not of a whole piece.`,
      where: { file, field: 'layers' },
    },
    ...job.pinned.flatMap((pin, i): Issue[] =>
      left.some((part) => isSamePart(part, pin))
        ? [
            {
              kind: 'pin-invalid',
              severity: 'error',
              message: 'the pinned part is not cut in this batch: it has 0 copies in a set',
              received: `"${pin.layer}, ${pin.part}"`,
              remedy: 'Take its pin out of the job.',
              where: { file, field: `pinned[${i}]` },
            },
          ]
        : [],
    ),
  ];
}
