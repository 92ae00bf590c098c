import { type FormEvent, useMemo, useState } from 'react';
import { v7 as uuidv7 } from 'uuid';
import type { BoxDescription } from '../../heat/description.ts';
import type { BoxRecord, PlaceRecord } from '../../schema/housing.ts';
import { say } from '../../wording/say.ts';
import { ask, type ProblemError } from '../data/client.ts';
import { saveEntry } from '../data/entries.ts';
import { readAgain } from '../data/queries.ts';
import { errorAt, Field } from '../parts/field.tsx';
import { Trouble } from '../parts/state.tsx';
import { type Build, placeOf } from './build.ts';
import { wordFor } from './words.ts';

interface SaveProps {
  readonly build: Build;
  readonly places: readonly PlaceRecord[];
  readonly known: BoxRecord | undefined;
  readonly box: BoxDescription;
  readonly onSaved: () => void;
}

/** Keeps the box, and the place too when it is a new one. */
export function SaveBuild({ build, places, known, box, onSaved }: SaveProps) {
  const ids = useMemo(() => ({ box: known?.id ?? uuidv7(), place: uuidv7() }), [known]);
  const [name, setName] = useState(known?.name ?? build.name);
  const [placeName, setPlaceName] = useState('');
  const [errors, setErrors] = useState<readonly ProblemError[]>([]);
  const [trouble, setTrouble] = useState<Error>();
  const place = places.find((one) => one.id === build.placeId);
  const save = async (event: FormEvent) => {
    event.preventDefault();
    setTrouble(undefined);
    const wrong: ProblemError[] = [];
    if (name.trim() === '') wrong.push({ where: 'name', what: say('web.error.needed') });
    if (!place && placeName.trim() === '') wrong.push({ where: 'placeName', what: say('web.error.needed') });
    setErrors(wrong);
    if (wrong.length > 0) return;
    try {
      if (!place)
        await ask('places', {
          method: 'POST',
          body: { id: ids.place, name: placeName.trim(), description: placeOf(build) },
        });
      const body = {
        id: ids.box,
        name: name.trim(),
        placeId: place?.id ?? ids.place,
        description: box,
        ...(known?.revision ? { revision: known.revision } : {}),
      };
      if (known) await saveEntry('box', body);
      else await ask('boxes', { method: 'POST', body });
      await readAgain('places', 'boxes');
      onSaved();
    } catch (problem) {
      setTrouble(problem as Error);
    }
  };
  return (
    <form onSubmit={save} noValidate className="no-print" aria-labelledby="save-build">
      <h2 id="save-build">{say('web.builder.save')}</h2>
      {trouble ? <Trouble error={trouble} /> : null}
      <div className="columns">
        <Field
          label={say('web.builder.name')}
          help={say('web.builder.nameHelp')}
          value={name}
          onChange={setName}
          error={errorAt(errors, 'name')}
        />
        {place ? null : (
          <Field
            label={say('web.builder.placeName')}
            help={`${say('web.builder.placeNameHelp')} (${wordFor.place(build.preset)})`}
            value={placeName}
            onChange={setPlaceName}
            error={errorAt(errors, 'placeName')}
          />
        )}
      </div>
      <div className="actions">
        <button type="submit" className="button" data-kind="main">
          {say('web.builder.save')}
        </button>
      </div>
    </form>
  );
}
