/** The items without those whose key came before: the first of each stays, in its place. */
export function firstOfEach<T>(items: readonly T[], key: (item: T) => string): T[] {
  const seen = new Set<string>();
  return items.filter((item) => {
    const name = key(item);
    if (seen.has(name)) return false;
    seen.add(name);
    return true;
  });
}
