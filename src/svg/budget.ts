/**
 * Work that may still be done for one drawing, in steps of whatever is counted. Handed down and taken from in place,
 * so that all who share it stop together: a hostile file then ends in a report and not in a hang.
 */
export interface Budget {
  left: number;
}
