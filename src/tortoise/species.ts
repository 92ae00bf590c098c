import { SPECIES, type Species } from './species-table.ts';

const plain = (name: string): string => name.trim().toLowerCase().replace(/\s+/g, ' ');

const byName = new Map<string, Species>();
for (const species of SPECIES) {
  byName.set(plain(species.name), species);
  for (const synonym of species.synonyms ?? []) byName.set(plain(synonym), species);
}

/** The row of a scientific name (or a synonym, whatever its capitals), `unknown` or `hybrid`; undefined for any other name. */
export function findSpecies(name: string): Species | undefined {
  return byName.get(plain(name));
}

/**
 * True for a taxon that may be hibernated at all. `unknown`, hybrids, tropical taxa and names that are not in the table are
 * false: no plan to sleep is ever made for them. A form that must be identified first is true here and waits at its gate.
 */
export function mayEverHibernate(name: string): boolean {
  const species = findSpecies(name);
  return species?.hibernation === 'hibernates' || species?.hibernation === 'identify-first';
}

/** Names of the table nearest to a misspelt one, best first, at most `count`; none when nothing is near. */
export function nearestSpecies(name: string, count = 3): string[] {
  const asked = plain(name);
  const seen = new Map<string, number>();
  for (const [known, species] of byName) {
    const words = [known, plain(species.english), known.split(' ').slice(1).join(' ')].filter(
      (word) => word.length > 3,
    );
    const distance = Math.min(...words.map((word) => editDistance(asked, word) / Math.max(asked.length, word.length)));
    seen.set(species.name, Math.min(seen.get(species.name) ?? 1, distance));
  }
  const ranked = [...seen].filter(([, distance]) => distance <= 0.45).sort((a, b) => a[1] - b[1]);
  const best = ranked[0]?.[1] ?? 0;
  return ranked
    .filter(([, distance]) => distance <= best + 0.2)
    .slice(0, count)
    .map(([known]) => known);
}

/** Levenshtein distance: fewest letters added, dropped or changed. */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(change, row[j]! + 1, next[j - 1]! + 1));
    }
    row = next;
  }
  return row[b.length]!;
}
