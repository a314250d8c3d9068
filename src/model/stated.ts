/** Some of the fields of something: what is left out or undefined has its default. */
export type SomeOf<T> = { readonly [K in keyof T]?: T[K] | undefined };

/** The fields that are stated, so that one that is there but undefined does not hide its default. */
export function stated<T extends object>(fields: T): Partial<T> {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as Partial<T>;
}
