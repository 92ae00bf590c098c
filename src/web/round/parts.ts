import type { Round } from '../../schema/round.ts';

/** The round's own parts, as the server gives them: a place with its stays and its lines. */
export type RoundPart = Round['parts'][number];
export type Line = RoundPart['lines'][number];
export type RoundStay = RoundPart['stays'][number];
