import type { Issue } from '../issues/issue.ts';
import { timeConstants } from '../sawing/time/time-constants.ts';
import { workTime } from '../sawing/time/work-time.ts';
import { formatHours } from '../units/hours.ts';
import type { Job } from './job-schema.ts';
import { loggedWork } from './logged-work.ts';

/** How many times as slow or as quick as the common times a log is taken without a word (common practice, no source). */
const FAR_OFF = 5;

/**
 * A warning for a line of the log that tells of a pace no maker has: hours written as minutes, or metres as millimetres. The
 * times are fitted to it all the same, and hours and prices with them, so nothing else tells.
 */
export function logIssues(job: Pick<Job, 'work'>, file: string): Issue[] {
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
