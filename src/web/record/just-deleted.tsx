import { useState } from 'react';
import { say } from '../../wording/say.ts';
import { bringBack, putAwayDeleted, useLastDeleted } from '../data/entries.ts';

/** What was deleted a moment ago, with the way back, on whatever screen follows. */
export function JustDeleted() {
  const deleted = useLastDeleted();
  const [trouble, setTrouble] = useState('');
  if (!deleted) return null;
  const undo = async () => {
    setTrouble('');
    try {
      await bringBack(deleted.kind, deleted.record);
    } catch (problem) {
      setTrouble((problem as Error).message);
    }
  };
  return (
    <div className="toast no-print" role="status">
      <span>
        {say('web.record.deleted', { what: deleted.what })} {trouble}
      </span>
      <span className="toast-actions">
        <button type="button" className="button" onClick={undo}>
          {say('web.undo')}
        </button>
        <button type="button" className="button" onClick={putAwayDeleted}>
          {say('web.close')}
        </button>
      </span>
    </div>
  );
}
