/** Who asks, in which group, and when. With `keeperId` only that keeper's animals, and what belongs to them, exist. */
export interface Scope {
  readonly groupId: string;
  readonly personId: string | null;
  readonly keeperId?: string;
  readonly nowMs: number;
}
