import { describe, expect, it } from 'vitest';
import { FretlayError, throwOnErrors } from '../../src/issues/fretlay-error.ts';
import { formatIssue, type Issue } from '../../src/issues/issue.ts';

const issue: Issue = {
  kind: 'kerf-negative',
  severity: 'error',
  message: 'the kerf is negative',
  expected: 'at least 0 mm',
  received: '-1 mm',
  remedy: 'Measure a test cut.',
  where: { file: 'job.json', line: 3, column: 7, field: 'kerf' },
};

describe('formatIssue', () => {
  it('says where, what, expected, found and what to do', () => {
    expect(formatIssue(issue)).toBe(
      'job.json:3:7, kerf: the kerf is negative (expected at least 0 mm, found -1 mm). Measure a test cut.',
    );
  });

  it('says what it knows and nothing else', () => {
    expect(formatIssue({ kind: 'x', severity: 'note', message: 'all is well' })).toBe('all is well');
    expect(
      formatIssue({
        kind: 'x',
        severity: 'note',
        message: 'm',
        where: { layer: 'Sky', part: 'sun', at: [1, 2] },
      }),
    ).toBe('layer "Sky", part "sun", at 1.0, 2.0 mm: m');
  });
});

describe('throwOnErrors', () => {
  it('throws one error that carries every error, and lets warnings pass', () => {
    const warning: Issue = { kind: 'w', severity: 'warning', message: 'odd' };
    expect(() => throwOnErrors([warning])).not.toThrow();
    try {
      throwOnErrors([warning, issue, issue]);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(FretlayError);
      expect((error as FretlayError).issues).toEqual([issue, issue]);
      expect((error as FretlayError).message).toContain('the kerf is negative');
    }
  });
});
