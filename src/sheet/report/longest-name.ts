/** Characters of a name that the report shows. */
export const LONGEST_NAME = 120;
