import type { Issue } from '../issues/issue.ts';
import { nearestName } from '../issues/nearest-name.ts';
import { timeConstants } from '../sawing/time/time-constants.ts';
import { workTime } from '../sawing/time/work-time.ts';
import { MIDDLING_HARDNESS, WOODS, woodFacts } from '../sawing/wood-facts.ts';
import { formatHours } from '../units/hours.ts';
import type { Job } from './job-schema.ts';
import { loggedWork } from './logged-work.ts';

/** How many times as slow or as quick as the common times a log is taken without a word (common practice, no source). */
const FAR_OFF = 5;

/** Share of the letters of a wood that may be mistyped before it is taken for another one. */
const MISTYPED = 0.25;

/** What is remarkable about the log of a job: woods that are not in the table, and a pace that no maker has. */
export function logIssues(job: Pick<Job, 'work'>, file: string): Issue[] {
  return [...speciesIssues(job, file), ...paceIssues(job, file)];
}

/**
 * For every wood of the log that the table lacks, once: its lines are taken for wood of middling hardness, and the times of all
 * other woods are fitted to that. A warning where it is most likely a slip of the hand, else a note.
 */
function speciesIssues({ work: { log } }: Pick<Job, 'work'>, file: string): Issue[] {
  const unknown = log.map(({ species }) =>
    species === undefined || woodFacts(species) !== undefined ? undefined : species,
  );
  return unknown.flatMap((species, i): Issue[] => {
    if (species === undefined || unknown.indexOf(species) < i) return [];
    const names = WOODS.flatMap(({ name, alsoCalled }) => [name, ...alsoCalled]);
    const meant = nearestName(species, names, MISTYPED);
    return [
      {
        kind: 'species-without-facts',
        severity: meant === undefined ? 'note' : 'warning',
        message: `the table of woods does not have "${species}": what the log has of it is taken for wood of ${MIDDLING_HARDNESS} lbf, and times are fitted to that${meant === undefined ? '' : `; did you mean "${meant}"?`}`,
        remedy:
          'Write the wood by a name of the table; if it is none of them, hours are rougher than with others.',
        where: { file, field: `work.log[${i}].species` },
      },
    ];
  });
}

/**
 * A warning for a line of the log that tells of a pace no maker has: hours written as minutes, or metres as millimetres. The
 * times are fitted to it all the same, and hours and prices with them, so nothing else tells.
 */
function paceIssues(job: Pick<Job, 'work'>, file: string): Issue[] {
  const times = timeConstants(job.work.times);
  return loggedWork(job).flatMap(({ minutes, amounts }, i): Issue[] => {
    const { low, high } = workTime(amounts, times).total;
    if (high === 0 || (minutes >= low / FAR_OFF && minutes <= high * FAR_OFF)) return [];
    return [
      {
        kind: 'log-unlikely',
        severity: 'warning',
        message:
          'this work took far less or more time than it does by the common times, and hours and prices follow it',
        expected: `about ${formatHours(low)} to ${formatHours(high)}`,
        received: formatHours(minutes),
        remedy:
          'Look at the units: "minutes" are minutes, a plain number under "cutLength" is in millimetres. If it is right, leave it.',
        where: { file, field: `work.log[${i}]` },
      },
    ];
  });
}
