import { counted } from '../../issues/counted.ts';
import { formatIssue, type Issue, worstFirst } from '../../issues/issue.ts';
import { lengthsInText } from '../../issues/lengths-in-text.ts';
import { toldTogether } from '../../issues/told-together.ts';
import { incompleteBatch } from '../../model/incomplete-batch.ts';
import type { Layout, Unplaced } from '../../model/layout.ts';
import type { DisplayUnit } from '../../units/length.ts';
import { shortened } from '../marks/text-width.ts';
import { type Html, html, LONGEST_NAME, named, numbers, sentences, table, words } from './html.ts';

/** What a maker has to know before anything is sawn: that the batch is not whole, what found no place, what needs a look. */

const UNPLACED_COLUMNS = [words('Layer'), words('Part'), numbers('Copies'), words('Sets'), sentences('Why')];

/** Issues that the table of copies without a place and the word at the top tell already. */
const TOLD_ELSEWHERE = ['copies-unplaced', 'batch-incomplete'];

/**
 * At the very top where sets are not complete: the price of a piece is then no price to go by.
 *
 * @param isCosted whether the report tells hours and money
 */
export function incompleteBanner(layout: Layout, isCosted: boolean): Html[] {
  const batch = incompleteBatch(layout);
  if (batch === undefined) return [];
  const { complete, sets, partsBeyond } = batch;
  const isOne = partsBeyond === 1;
  const beyond = counted(partsBeyond, 'part');
  const charged = isCosted ? ', with the hours, blades and boards they take' : '';
  const told =
    complete === 0
      ? `No piece can be finished from what is cut here: ${beyond} and no whole set. Add boards, or give the parts more freedom.`
      : partsBeyond === 0
        ? 'Nothing is cut beyond them. Add boards for the rest.'
        : `${beyond} cut beyond them ${isOne ? 'belongs' : 'belong'} to no whole piece and ${
            isOne ? 'is' : 'are'
          } charged to those that are${charged}. Ask for ${counted(complete, 'set')} to cut no more, or add boards for the rest.`;
  return [
    html('section', { class: 'unfinished' }, [
      html('h2', {}, [`${complete} of ${sets} sets complete`]),
      html('p', {}, [told]),
    ]),
  ];
}

/** What found no place and what needs a look, before the work: it decides what happens next. */
export function attention({ unplaced }: Layout, issues: readonly Issue[], unit: DisplayUnit): Html {
  const heading = html('h2', {}, ['To look at']);
  if (unplaced.length + issues.length === 0) {
    return html('section', {}, [heading, html('p', {}, ['Nothing: every part has its place.'])]);
  }
  const listed = unplaced.length === 0 ? issues : issues.filter(({ kind }) => !TOLD_ELSEWHERE.includes(kind));
  const help = new Set(
    issues.flatMap(({ kind, remedy }) =>
      kind === 'copies-unplaced' && remedy !== undefined ? [remedy] : [],
    ),
  );
  return html('section', {}, [
    heading,
    ...(unplaced.length === 0
      ? []
      : [table('Copies that found no place', UNPLACED_COLUMNS, unplacedRows(unplaced, unit))]),
    ...(unplaced.length === 0 ? [] : [...help].map((remedy) => html('p', {}, [remedy]))),
    ...(listed.length === 0
      ? []
      : [
          html(
            'ul',
            {},
            worstFirst(toldTogether(listed)).map((issue) => issueItem(issue, unit)),
          ),
        ]),
  ]);
}

/** One row for the copies of a part that are missing for one reason, however many sets lack it. */
function unplacedRows(unplaced: readonly Unplaced[], unit: DisplayUnit): (Html | string)[][] {
  const alike = new Map<string, Unplaced[]>();
  for (const copy of unplaced) {
    const key = JSON.stringify([copy.layer, copy.part, copy.why]);
    alike.set(key, [...(alike.get(key) ?? []), copy]);
  }
  return [...alike.values()].map((copies) => [
    named(shortened(copies[0].layer, LONGEST_NAME)),
    named(shortened(copies[0].part, LONGEST_NAME)),
    `${copies.length}`,
    runsOf(copies.map(({ set }) => set)),
    lengthsInText(copies[0].why, unit),
  ]);
}

/** Whole numbers in words, neighbours drawn together: `3, 17 to 25`. */
function runsOf(all: readonly number[]): string {
  const runs: { from: number; to: number }[] = [];
  for (const number of [...new Set(all)].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last !== undefined && number === last.to + 1) last.to = number;
    else runs.push({ from: number, to: number });
  }
  return runs.map(({ from, to }) => (from === to ? `${from}` : `${from} to ${to}`)).join(', ');
}

function issueItem(issue: Issue, unit: DisplayUnit): Html {
  return html('li', {}, [html('strong', {}, [issue.severity]), ' ', named(formatIssue(issue, unit))]);
}
