import type { Source } from '../measure/source.ts';
import { type Message, message } from '../wording/say.ts';
import { CHARACTERS, type Character, KEY, type KeyRow, type Seen, USUAL } from './key-table.ts';
import { findSpecies } from './species.ts';
import type { Hibernation } from './species-table.ts';

/** Misread characters: what even the surest share leaves over. Excluded taxa alone have none. */
const SLIP = 0.01;
/** A taxon less likely than this beside the likeliest is no longer possible. */
const POSSIBLE_FROM = 0.02;
/** The likeliest must hold this share, and no character may be a rarity in it, to be certain. */
const CERTAIN_FROM = 0.97;
const RARE_UNDER = 0.1;
/** Fewer characters than this are never certain. */
const LEAST_CHARACTERS = 4;

interface Candidate {
  readonly taxon: string;
  /** Share of the belief, 0 to 1; all candidates add to 1. */
  readonly share: number;
  readonly hibernation: Hibernation;
  /** Characters seen that are rare in this taxon. */
  readonly against: readonly Character[];
  readonly source: Source;
}

export interface Identification {
  /** What remains possible, likeliest first. */
  readonly possible: readonly Candidate[];
  /** Taxon, species, or genus of kinds that never sleep, when it is certain; undefined when it is not. */
  readonly certain: string | undefined;
  /** Characters not yet seen that would separate what remains, the best first. */
  readonly separating: readonly Character[];
  readonly reasons: readonly Message[];
  /** True only when every remaining possibility is one that hibernates and nothing points to a hybrid. */
  readonly allHibernate: boolean;
}

/** Share (0 to 1) of a taxon's animals that show the answer; exactly 0 where the table says never. */
function shareOf(row: KeyRow, character: Character, answer: string): number {
  const shares = row.shares[character] ?? USUAL[character];
  const total = shares.reduce((sum, each) => sum + each, 0);
  return (shares[(CHARACTERS[character] as readonly string[]).indexOf(answer)] ?? 0) / total;
}

/** An absent nuchal scute excludes every kind that hibernates; elsewhere a never may still be a slip of the eye. */
function likelihood(row: KeyRow, character: Character, answer: string): number {
  const share = shareOf(row, character, answer);
  if (character === 'nuchal' && share === 0) return 0;
  return SLIP / CHARACTERS[character].length + (1 - SLIP) * share;
}

/**
 * Scores every taxon of the key against what has been seen (Bayes' rule, all taxa alike beforehand, characters taken as
 * independent). Missing characters are allowed. Says *not certain* whenever more than one kind remains, a character is rare in
 * the likeliest, few characters were seen, or spur and tail nail occur together.
 */
export function identify(seen: Seen): Identification {
  const given = (Object.keys(CHARACTERS) as Character[]).filter((character) => seen[character] !== undefined);
  const scores = KEY.map((row) => given.reduce((score, each) => score * likelihood(row, each, seen[each]!), 1));
  const total = scores.reduce((sum, score) => sum + score, 0);
  const best = Math.max(...scores);
  const possible: (Candidate & { row: KeyRow })[] = KEY.map((row, i) => ({
    row,
    taxon: row.taxon,
    share: total > 0 ? scores[i]! / total : 0,
    hibernation: findSpecies(row.taxon)?.hibernation ?? 'unidentified',
    against: given.filter((each) => shareOf(row, each, seen[each]!) < RARE_UNDER),
    source: row.source,
  }))
    .filter((candidate) => candidate.share > 0 && candidate.share >= (POSSIBLE_FROM * best) / total)
    .sort((a, b) => b.share - a.share);

  const reasons: Message[] = [];
  const mixed = seen.tailNail === 'present' && (seen.thighSpurs === 'one-each-side' || seen.thighSpurs === 'large');
  if (mixed) reasons.push(message('tortoise.key.spurAndNail'));
  if (seen.nuchal === 'absent') reasons.push(message('tortoise.key.noNuchal'));
  if (given.length < LEAST_CHARACTERS) reasons.push(message('tortoise.key.few', { number: LEAST_CHARACTERS }));
  const first = possible[0];
  const name = first && commonName(possible);
  if (first && first.against.length > 0) reasons.push(message('tortoise.key.rare', { taxon: first.taxon }));
  if (possible.length > 1 && !name) reasons.push(message('tortoise.key.several', { number: possible.length }));
  const held = possible.reduce((sum, candidate) => sum + candidate.share, 0);
  const certain =
    first && name && !mixed && given.length >= LEAST_CHARACTERS && first.against.length === 0 && held >= CERTAIN_FROM
      ? name
      : undefined;
  return {
    possible: possible.map(({ row: _, ...candidate }) => candidate),
    certain,
    separating: separating(possible, given),
    reasons: certain ? [message('tortoise.key.certain', { taxon: certain }), ...reasons] : reasons,
    allHibernate:
      !mixed && possible.length > 0 && possible.every((candidate) => candidate.hibernation === 'hibernates'),
  };
}

/**
 * The name that covers every candidate: the one taxon, the species where only its forms remain and all sleep alike, or the genus
 * where none of its kinds sleeps.
 */
function commonName(possible: readonly Candidate[]): string | undefined {
  if (possible.length === 1) return possible[0]!.taxon;
  const shared = (words: number) => {
    const names = new Set(possible.map((candidate) => candidate.taxon.split(' ').slice(0, words).join(' ')));
    return names.size === 1 ? [...names][0] : undefined;
  };
  const ways = new Set(possible.map((candidate) => candidate.hibernation));
  if (ways.size > 1) return undefined;
  return shared(2) ?? (ways.has('never') ? shared(1) : undefined);
}

/** Characters by how much they are expected to tell (mutual information with the taxon, bits), those that tell little left out. */
function separating(possible: readonly { row: KeyRow; share: number }[], given: readonly Character[]): Character[] {
  if (possible.length < 2) return [];
  const total = possible.reduce((sum, each) => sum + each.share, 0);
  const entropy = (weights: readonly number[]) =>
    weights.reduce((sum, weight) => (weight > 0 ? sum - weight * Math.log2(weight) : sum), 0);
  return (Object.keys(CHARACTERS) as Character[])
    .filter((character) => !given.includes(character))
    .map((character) => {
      const answers = CHARACTERS[character] as readonly string[];
      let bits = entropy(answers.map((answer) => expected(possible, total, character, answer)));
      for (const { row, share } of possible)
        bits -= (share / total) * entropy(answers.map((answer) => likelihood(row, character, answer)));
      return { character, bits };
    })
    .filter(({ bits }) => bits > 0.05)
    .sort((a, b) => b.bits - a.bits)
    .map(({ character }) => character);
}

const expected = (
  possible: readonly { row: KeyRow; share: number }[],
  total: number,
  character: Character,
  answer: string,
): number => possible.reduce((sum, { row, share }) => sum + (share / total) * likelihood(row, character, answer), 0);
