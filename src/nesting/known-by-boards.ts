import type { Group } from './groups/group.ts';

/** What is found of groups on what is left of the stock, once for each group and the boards that are taken. */
export class KnownByBoards<T> {
  readonly #known = new Map<Group, Map<string, T>>();

  /** What is known of a group beside the boards taken, or else found now. */
  async get(group: Group, taken: ReadonlySet<string>, find: () => Promise<T>): Promise<T> {
    const ofGroup = this.#known.get(group) ?? new Map<string, T>();
    this.#known.set(group, ofGroup);
    const key = [...taken].sort().join('\n');
    const found = ofGroup.get(key) ?? (await find());
    ofGroup.set(key, found);
    return found;
  }
}
