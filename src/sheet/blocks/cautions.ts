/**
 * Cautions, in our own words, after common scroll-saw safety practice: fingers an inch from the blade, nothing too
 * small to be supported, eye protection always, a hold-down that rests on the work. Wood dust: NIOSH recommended
 * exposure limit of 1 mg/m3, potential carcinogen. The 50 mm for small parts is common practice, no source.
 */
export const CAUTIONS: readonly string[] = [
  'Fingers at least 25 mm (1 in) from the blade, never in line with it.',
  'Eye protection on. Mask and extraction against wood dust; some woods irritate.',
  'Hold the work down. Leave small parts (under 50 mm, 2 in) in the board or on a carrier until the last cut.',
  'Saw stopped and unplugged to thread a blade; stopped to clear pieces.',
  'Drill and saw openings before the outline, while there is wood to hold.',
  'The manual of your saw and the rules of your place come before this sheet.',
];
