import { useState } from 'react';
import type { Probe, ReadingChart } from '../../schema/reading.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { useAnswer } from '../data/queries.ts';
import { Pick } from '../parts/field.tsx';
import { Answered } from '../parts/state.tsx';
import { driftBetween, LEAST_PAIRS, WORTH_A_CHECK_K } from './drift.ts';

const HOUR_MS = 3_600_000;
const DAYS = 14;

/** A thermometer against a second one that hangs beside it, over two weeks by the hour. */
export function Comparison({ probe, others }: { readonly probe: Probe; readonly others: readonly Probe[] }) {
  const [other, setOther] = useState('');
  return (
    <details className="why">
      <summary>{say('web.drift.title')}</summary>
      <div>
        <p className="field-help">{say('web.drift.lead')}</p>
        <Pick
          label={say('web.drift.with')}
          value={other}
          onChange={setOther}
          options={[
            { value: '', label: say('web.drift.choose') },
            ...others.map((one) => ({ value: one.id, label: one.name })),
          ]}
        />
        {other === '' ? null : <Compared one={probe.id} other={other} />}
      </div>
    </details>
  );
}

function Compared({ one, other }: { readonly one: string; readonly other: string }) {
  const { difference } = useFigures();
  const [toMs] = useState(() => Math.ceil(Date.now() / HOUR_MS) * HOUR_MS);
  // An hour for each stretch, so that both thermometers fall into the same ones.
  const span = `from=${new Date(toMs - DAYS * 24 * HOUR_MS).toISOString()}&to=${new Date(toMs).toISOString()}&buckets=${DAYS * 24 + 2}`;
  const mine = useAnswer<ReadingChart>(`readings?probeId=${one}&${span}`);
  const theirs = useAnswer<ReadingChart>(`readings?probeId=${other}&${span}`);
  return (
    <Answered of={mine}>
      {(first) => (
        <Answered of={theirs}>
          {(second) => {
            const drift = driftBetween(first, second);
            if (!drift) return <p>{say('web.drift.few', { least: LEAST_PAIRS, days: DAYS })}</p>;
            const changed = Math.abs(drift.lateK - drift.earlyK);
            return (
              <>
                <p>
                  {say('web.drift.mean', { difference: difference(drift.meanK, 2), hours: drift.pairs })}{' '}
                  {say('web.drift.change', {
                    early: difference(drift.earlyK, 2),
                    late: difference(drift.lateK, 2),
                  })}
                </p>
                <p>
                  <strong>
                    {say(
                      changed > WORTH_A_CHECK_K
                        ? 'web.drift.drifting'
                        : Math.abs(drift.meanK) > WORTH_A_CHECK_K
                          ? 'web.drift.apart'
                          : 'web.drift.fine',
                      { limit: difference(WORTH_A_CHECK_K) },
                    )}
                  </strong>
                </p>
              </>
            );
          }}
        </Answered>
      )}
    </Answered>
  );
}
