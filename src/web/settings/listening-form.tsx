import { type FormEvent, useState } from 'react';
import type { Listening } from '../../schema/channel.ts';
import { say } from '../../wording/say.ts';
import { ask } from '../data/client.ts';
import { readAgain, useAnswer } from '../data/queries.ts';
import { Choice, Field } from '../parts/field.tsx';
import { Answered, Trouble } from '../parts/state.tsx';

const CLOCK = /^([01]?\d|2[0-3])[:.h]([0-5]\d)$/;
const MOST_DIGESTS = 6;

/** When I want to hear: hours of quiet, and the times at which what can wait comes together. */
export function ListeningForm() {
  const listening = useAnswer<Listening>('listening');
  return <Answered of={listening}>{(known) => <Form known={known} key={JSON.stringify(known)} />}</Answered>;
}

function Form({ known }: { readonly known: Listening }) {
  const [quiet, setQuiet] = useState<'yes' | 'no'>(known.quiet ? 'yes' : 'no');
  const [from, setFrom] = useState(known.quiet?.from ?? '22:00');
  const [to, setTo] = useState(known.quiet?.to ?? '07:00');
  const [digests, setDigests] = useState(known.digests.join(', '));
  const [errors, setErrors] = useState<Readonly<Record<string, string>>>({});
  const [trouble, setTrouble] = useState<Error>();
  const [said, setSaid] = useState('');
  const save = async (event: FormEvent) => {
    event.preventDefault();
    setSaid('');
    setTrouble(undefined);
    const times = digests.split(/[,;\s]+/).filter(Boolean);
    const [fromClock, toClock, ...digestClocks] = [from, to, ...times].map(clockOf);
    const wrong = {
      ...(quiet === 'yes' && !fromClock ? { from: say('web.told.clock') } : {}),
      ...(quiet === 'yes' && !toClock ? { to: say('web.told.clock') } : {}),
      ...(digestClocks.length === 0 || digestClocks.length > MOST_DIGESTS || digestClocks.includes(undefined)
        ? { digests: say('web.told.clocks', { most: MOST_DIGESTS }) }
        : {}),
    };
    setErrors(wrong);
    if (Object.keys(wrong).length > 0) return;
    try {
      const body = {
        ...(quiet === 'yes' ? { quiet: { from: fromClock, to: toClock } } : {}),
        digests: [...new Set(digestClocks)].sort(),
      };
      await ask('listening', { method: 'PUT', body });
      setSaid(say('web.saved'));
      await readAgain('listening');
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <form onSubmit={save} noValidate className="form-part" aria-labelledby="when-told">
      <h3 id="when-told">{say('web.told.when')}</h3>
      <p>{say('web.told.whenLead')}</p>
      {trouble ? <Trouble error={trouble} /> : null}
      <Choice
        label={say('web.told.quiet')}
        help={say('web.told.quietHelp')}
        value={quiet}
        onChange={setQuiet}
        options={(['yes', 'no'] as const).map((value) => ({ value, label: say(`web.told.quiet.${value}`) }))}
      />
      {quiet === 'yes' ? (
        <div className="clocks">
          <Field label={say('web.told.from')} value={from} onChange={setFrom} error={errors.from} />
          <Field label={say('web.told.to')} value={to} onChange={setTo} error={errors.to} />
        </div>
      ) : null}
      <Field
        label={say('web.told.digests')}
        help={say('web.told.digestsHelp')}
        value={digests}
        onChange={setDigests}
        error={errors.digests}
      />
      <div className="actions">
        <button type="submit" className="button">
          {say('web.save')}
        </button>
        <span role="status">{said}</span>
      </div>
    </form>
  );
}

/** "8:05" and "08.05" as "08:05"; undefined when it is no time of day. */
function clockOf(text: string): string | undefined {
  const match = CLOCK.exec(text.trim());
  return match ? `${match[1]?.padStart(2, '0')}:${match[2]}` : undefined;
}
