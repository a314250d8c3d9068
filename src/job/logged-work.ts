import { PACE_THICKNESS, paceMetres } from '../sawing/time/blade-life.ts';
import type { LoggedWork } from '../sawing/time/calibrate.ts';
import { hardnessOf } from '../sawing/wood-facts.ts';
import type { Job } from './job-schema.ts';

/** The maker's log in the amounts of the time model. */
export function loggedWork({ work }: Pick<Job, 'work'>): LoggedWork[] {
  return work.log.map(({ minutes, cutLength = 0, species = '', thickness = PACE_THICKNESS, amounts }) => ({
    minutes,
    amounts: {
      ...amounts,
      sawing: (amounts.sawing ?? 0) + paceMetres(cutLength, thickness, hardnessOf(species)),
    },
  }));
}
