import type { Issue } from '../issues/issue.ts';
import type { Pattern } from '../model/pattern.ts';
import type { Job } from './job-schema.ts';

/** Rules that a job gives for layers which the pattern does not have: told as errors, for they would change nothing. */
export function unknownLayerIssues({ layers }: Job, pattern: Pattern, file: string): Issue[] {
  const names = pattern.layers.map(({ name }) => name);
  const unknown = Object.keys(layers).filter((name) => !names.includes(name));
  return unknown.map((name): Issue => {
    const why = pattern.leftOut?.find((layer) => layer.name === name)?.why;
    const isAlike = names.some((known) => known.normalize('NFC') === name.normalize('NFC'));
    const { what, remedy } = why === undefined ? (isAlike ? WRITTEN_ANOTHER_WAY : MISSPELT) : LEFT_OUT[why];
    return {
      kind: 'layer-unknown',
      severity: 'error',
      message: `the job gives rules for a layer that ${what}`,
      expected: `one of ${names.map((known) => `"${known}"`).join(', ')}`,
      received: `"${name}"`,
      remedy,
      where: { file, field: `layers.${name}` },
    };
  });
}

const NOT_THERE = 'the pattern does not have';

const MISSPELT = {
  what: NOT_THERE,
  remedy: 'Write the name as the drawing has it: capitals count.',
};

/** An accent may be one character with its letter, or one of its own: no eye sees a difference. */
const WRITTEN_ANOTHER_WAY = {
  what: NOT_THERE,
  remedy:
    'One of them looks the same, but has its accents stored in another way: copy the name out of the drawing.',
};

/** Layers that the drawing has and the pattern has not. */
const LEFT_OUT = {
  'switched off': {
    what: 'is switched off in the drawing',
    remedy: 'Show it in the drawing program if it is to be cut; else take its rules out of the job.',
  },
  'no parts': {
    what: 'holds nothing that can be cut',
    remedy: 'Draw the outline of every part in it as a closed path; else take its rules out of the job.',
  },
} as const;
