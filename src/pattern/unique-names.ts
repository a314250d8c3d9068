/** Gives every name once: a name that is taken already gets a number behind it, `leaf`, `leaf 2`, `leaf 3`. */
export class UniqueNames {
  private readonly taken = new Set<string>();
  /** Number to try next for a name. Counting anew each time made ten thousand parts of one name take minutes. */
  private readonly next = new Map<string, number>();

  give(name: string): string {
    let unique = name;
    let number = this.next.get(name) ?? 2;
    // The numbered name may be taken too: a person may have called a part `leaf 2`.
    while (this.taken.has(unique)) unique = `${name} ${number++}`;
    this.next.set(name, number);
    this.taken.add(unique);
    return unique;
  }
}
