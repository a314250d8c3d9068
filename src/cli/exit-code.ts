/** What the process ends with; told in `fretlay --help` and docs/command-line.md. */
export const ExitCode = { done: 0, incomplete: 1, refused: 2, fault: 3 } as const;
