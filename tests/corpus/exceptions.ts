/** Drawings whose parts and picture differ, each with the reason. */
export const EXCEPTIONS: Readonly<Record<string, string>> = {};
