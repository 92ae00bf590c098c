/** What the server listens to and how it can tell people. */
export interface Outside {
  readonly broker: { readonly connected: boolean; readonly topic: string; readonly reason?: string } | null;
  readonly wire: boolean;
  readonly weather: { readonly at: string | null; readonly error: string | null } | null;
  readonly mail: boolean;
  readonly pushKey: string | null;
}
