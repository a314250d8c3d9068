import type { Finding, FindingGroup } from '../model/pattern-check.ts';

/** Sizes nearer than this, relative, are those of copies: the same drawing twice differs by rounding alone. */
const COPY = 0.01;

/**
 * Findings that say the same thing are told once with their number: all of one kind in one part, and those of parts
 * that are copies of one another in a layer. In the order of the first of each.
 */
export function groupFindings(findings: readonly Finding[]): FindingGroup[] {
  const byPart = new Map<string, Finding[]>();
  for (const finding of findings) {
    // As JSON, so that no name can hold the separator of another.
    const key = JSON.stringify([finding.layer, finding.part, finding.kind]);
    const group = byPart.get(key);
    if (group === undefined) byPart.set(key, [finding]);
    else group.push(finding);
  }
  const groups: Finding[][] = [];
  const groupsOfKind = new Map<string, { readonly first: readonly Finding[]; readonly all: Finding[] }[]>();
  for (const found of byPart.values()) {
    const key = JSON.stringify([found[0].layer, found[0].kind, found.map(({ message }) => countIn(message))]);
    const known = groupsOfKind.get(key) ?? [];
    groupsOfKind.set(key, known);
    const same = known.find(({ first }) => areOfOneSize(first, found));
    if (same === undefined) {
      const all = [...found];
      groups.push(all);
      known.push({ first: found, all });
    } else {
      for (const finding of found) same.all.push(finding);
    }
  }
  return groups.map(groupOf);
}

/** True when the findings of two parts, as many of one kind, are of the same sizes: those of copies. */
function areOfOneSize(first: readonly Finding[], found: readonly Finding[]): boolean {
  return first.every(({ size }, i) => Math.abs(size - found[i].size) <= COPY * size);
}

/** Bends of a part are told in one finding already: the count its message starts with. */
function countIn(message: string): string | undefined {
  return /^\d+/.exec(message)?.[0];
}

function groupOf(findings: readonly Finding[]): FindingGroup {
  const [first] = findings;
  const parts = [...new Set(findings.map(({ part }) => part))];
  if (findings.length === 1) {
    return { findings, parts, message: first.message, advice: first.advice };
  }
  const perPart = findings.length / parts.length;
  const where = parts.length > 1 ? `${parts.length} parts alike, each: ` : '';
  const least = findings.reduce((most, { size }) => Math.min(most, size), first.size);
  const greatest = findings.reduce((most, { size }) => Math.max(most, size), first.size);
  const [from, to] = [least, greatest].map((size) => size.toFixed(2));
  const range = from === to ? `${from} mm` : `${from} to ${to} mm`;
  const message = perPart > 1 ? `${perPart} ${MANY[first.kind]}, ${range}` : first.message;
  return { findings, parts, message: `${where}${message}`, advice: first.advice };
}

/** What several findings of one kind in one part are called, before their sizes. */
const MANY: Readonly<Record<Finding['kind'], string>> = {
  'neck-thin': 'thin necks',
  'neck-short-grain': 'necks lie across the grain',
  'turn-tight': 'tight bends, down to a radius of',
  'opening-small': 'openings too small for the hole of the blade',
  'lost-in-kerf': 'slots narrower than the cut',
  'part-small': 'parts too small to hold near the blade',
};
