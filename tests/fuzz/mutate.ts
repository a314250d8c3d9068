/** Random damage to files: repeatable, by seed. */

/** A small generator of random numbers (Mulberry32, public domain). */
export function generator(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Values that readers tend to trip over. */
const HOSTILE: readonly unknown[] = [
  null,
  true,
  0,
  -0,
  -1,
  0.1,
  1e-300,
  1e15,
  1e308,
  '',
  ' ',
  '-1 in',
  '1/0 in',
  '1e999 mm',
  'NaN',
  '__proto__',
  'constructor',
  '../../escape',
  '\u0000',
  '\ud800',
  '<script>alert(1)</script>',
  '=cmd()',
  'x'.repeat(10_000),
  [],
  {},
  [[]],
  [[0, 0]],
  [
    [0, 0],
    [1, 0],
    [0, 1],
    [1, 1],
  ],
];

const KEYS = ['__proto__', 'constructor', 'toString', 'length', '', 'kerf', 'boards', 'x'.repeat(5000)];

type Holder = Record<string, unknown>;

/** A JSON text with one to three places of it damaged: values, fields, or plain characters. */
export function mutated(text: string, random: () => number): string {
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)];
  if (random() < 0.2) return damagedText(text, random);
  const value = JSON.parse(text) as Holder;
  for (let n = 1 + Math.floor(random() * 3); n > 0; n--) {
    const holder = pick(holders(value));
    const keys = Object.keys(holder);
    const key = pick(keys.length === 0 ? ['x'] : keys);
    const kind = random();
    if (kind < 0.55) define(holder, key, structuredClone(pick(HOSTILE)));
    else if (kind < 0.7) delete holder[key];
    else if (kind < 0.85) define(holder, pick(KEYS), structuredClone(holder[key]));
    else if (typeof holder[key] === 'number')
      define(holder, key, (holder[key] as number) * 10 ** (40 * random() - 20));
    else define(holder, key, structuredClone(value));
  }
  return JSON.stringify(value);
}

/** Sets a field of its own, also one named `__proto__`. */
function define(holder: Holder, key: string, value: unknown): void {
  if (Array.isArray(holder) && !/^\d+$/.test(key)) {
    holder.push(value);
    return;
  }
  Object.defineProperty(holder, key, { value, enumerable: true, configurable: true, writable: true });
}

/** Every object and array in a value. */
function holders(value: unknown): Holder[] {
  if (typeof value !== 'object' || value === null) return [];
  return [value as Holder, ...Object.values(value).flatMap(holders)];
}

function damagedText(text: string, random: () => number): string {
  const at = Math.floor(random() * text.length);
  const end = at + Math.floor(random() * 20);
  const kind = random();
  if (kind < 0.3) return text.slice(0, at);
  if (kind < 0.6) return text.slice(0, at) + text.slice(end);
  if (kind < 0.8) return text.slice(0, end) + text.slice(at);
  return text.slice(0, at) + String.fromCharCode(Math.floor(random() * 0x10000)) + text.slice(at + 1);
}
