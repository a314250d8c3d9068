/** The fields that are stated, so that one that is there but undefined does not hide its default. */
export function stated<T extends object>(fields: T): Partial<T> {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as Partial<T>;
}
