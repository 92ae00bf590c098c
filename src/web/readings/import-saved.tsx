import { Link } from '@tanstack/react-router';
import { say } from '../../wording/say.ts';

export interface SavedImport {
  readonly stored: number;
  readonly alreadyThere: number;
  readonly spansStored: number;
  readonly spansAlreadyThere: number;
  readonly rejected: number;
  readonly probes: readonly { readonly probeName: string; readonly probeId: string; readonly made: boolean }[];
}

export interface ImportState {
  readonly id: string;
  readonly state: 'arriving' | 'uploaded' | 'saving' | 'saved' | 'failed';
  readonly done: number;
  readonly all: number;
  readonly saved?: SavedImport;
  readonly problem?: string;
}

const count = (value: number) => value.toLocaleString('en-GB');

/** What saving changed: what is new, what was there already, and which thermometers were made. */
export function SavedFile({ saved, onMore }: { readonly saved: SavedImport; readonly onMore: () => void }) {
  const made = saved.probes.filter((probe) => probe.made);
  return (
    <section className="note" role="status">
      <h2>{say('web.import.savedTitle')}</h2>
      <p>
        {say('web.import.saved', {
          stored: count(saved.stored + saved.spansStored),
          there: count(saved.alreadyThere + saved.spansAlreadyThere),
        })}
      </p>
      {made.length > 0 ? (
        <p>
          {say('web.import.made', { names: made.map((probe) => probe.probeName).join(', ') })}{' '}
          <Link to="/readings/thermometers">{say('web.import.place')}</Link>
        </p>
      ) : null}
      <div className="actions">
        <button type="button" className="button" onClick={onMore}>
          {say('web.import.another')}
        </button>
      </div>
    </section>
  );
}
