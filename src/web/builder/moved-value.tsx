import { type KeyboardEvent, type PointerEvent, useEffect, useRef } from 'react';
import { say } from '../../wording/say.ts';
import { Swatch } from './swatches.tsx';

/** A value of the sentence that can be moved: a number with steps, or one of a few words. */
export interface Movable {
  readonly id: string;
  readonly label: string;
  readonly text: string;
  /** Position among `steps`: for numbers the value itself, for words the index. */
  readonly at: number;
  readonly low: number;
  readonly high: number;
  readonly step: number;
  readonly pageStep: number;
  readonly move: (to: number) => void;
  /** Words to choose from; absent for a number. */
  readonly words?: readonly string[];
  /** What the words stand for, where there is a drawing of it. */
  readonly pictures?: readonly string[];
  readonly unit?: string;
  /** Days are typed as days. */
  readonly day?: { readonly value: string; readonly set: (day: string) => void };
  readonly help?: string;
}

const within = (movable: Movable, to: number) => Math.max(movable.low, Math.min(movable.high, to));

/** So many steps from here, on a whole step: a value that was typed or turned from another unit falls in with the rest. */
const stepped = (movable: Movable, from: number, steps: number) =>
  within(movable, Math.round(from / movable.step + steps) * movable.step);

const PX_PER_STEP = 9;

/**
 * An underlined value within a sentence. Drag, wheel and arrow keys move it; Enter, a digit or a tap opens it for typing,
 * so nothing needs a drag.
 */
export function MovedValue(props: {
  readonly of: Movable;
  readonly open: boolean;
  readonly onOpen: (typed?: string) => void;
}) {
  const { of: movable, open, onOpen } = props;
  const element = useRef<HTMLSpanElement>(null);
  const drag = useRef<{ x: number; at: number; moved: boolean } | undefined>(undefined);
  const latest = useRef(movable);
  latest.current = movable;

  useEffect(() => {
    const here = element.current;
    if (!here) return;
    // The wheel moves a value only while it has the focus: otherwise the page scrolls as it should.
    const wheel = (event: WheelEvent) => {
      if (document.activeElement !== here) return;
      event.preventDefault();
      const now = latest.current;
      now.move(stepped(now, now.at, -Math.sign(event.deltaY)));
    };
    here.addEventListener('wheel', wheel, { passive: false });
    return () => here.removeEventListener('wheel', wheel);
  }, []);

  const keys = (event: KeyboardEvent) => {
    const by: Record<string, number> = {
      ArrowUp: movable.step,
      ArrowRight: movable.step,
      ArrowDown: -movable.step,
      ArrowLeft: -movable.step,
      PageUp: movable.pageStep,
      PageDown: -movable.pageStep,
    };
    const change = by[event.key];
    if (change !== undefined) movable.move(stepped(movable, movable.at, change / movable.step));
    else if (event.key === 'Home') movable.move(movable.low);
    else if (event.key === 'End') movable.move(movable.high);
    else if (event.key === 'Enter' || event.key === ' ') onOpen();
    else if (/^\d$/.test(event.key) && !movable.words) onOpen(event.key);
    else return;
    event.preventDefault();
  };

  return (
    <span
      ref={element}
      className="moved"
      role="spinbutton"
      tabIndex={0}
      aria-label={movable.label}
      aria-valuenow={movable.at}
      aria-valuemin={movable.low}
      aria-valuemax={movable.high}
      aria-valuetext={movable.text}
      aria-describedby="moved-help"
      data-open={open ? '' : undefined}
      onKeyDown={keys}
      onPointerDown={(event: PointerEvent<HTMLSpanElement>) => {
        drag.current = { x: event.clientX, at: movable.at, moved: false };
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => {
        const from = drag.current;
        if (!from) return;
        const steps = Math.round((event.clientX - from.x) / PX_PER_STEP);
        if (steps === 0 && !from.moved) return;
        from.moved = true;
        const to = stepped(movable, from.at, steps);
        if (to !== movable.at) movable.move(to);
      }}
      onPointerUp={() => {
        if (drag.current && !drag.current.moved) onOpen();
        drag.current = undefined;
      }}
      onPointerCancel={() => {
        drag.current = undefined;
      }}
    >
      {movable.text}
    </span>
  );
}

/** The open value, beneath the sentence: steps of a full target's size, a field to type in, or the words to choose from. */
export function ValueEditor(props: {
  readonly of: Movable;
  readonly typed: string | undefined;
  readonly onTyped: (text: string) => void;
  readonly onClose: () => void;
}) {
  const { of: movable, typed, onTyped, onClose } = props;
  const input = useRef<HTMLInputElement>(null);
  const opened = movable.id;
  useEffect(() => {
    // Typing goes on in the field that has just opened.
    if (opened) input.current?.focus();
  }, [opened]);
  const commit = (text: string) => {
    onTyped(text);
    const value = Number(text.replace(',', '.'));
    if (text.trim() !== '' && Number.isFinite(value)) movable.move(within(movable, value));
  };
  return (
    <fieldset
      className="value-editor no-print"
      onKeyDown={(event) => {
        if (event.key === 'Escape' || (event.key === 'Enter' && event.target === input.current)) onClose();
      }}
    >
      <legend>{movable.label}</legend>
      {movable.words ? (
        <div className="choices">
          {movable.words.map((word, index) => (
            <span className="choice" key={word}>
              <input
                type="radio"
                name={`value-${movable.id}`}
                checked={index === movable.at}
                onChange={() => movable.move(index)}
                aria-label={word}
              />
              <span aria-hidden="true">
                <Swatch of={movable.pictures?.[index] ?? ''} />
                {word}
              </span>
            </span>
          ))}
        </div>
      ) : (
        <div className="stepper">
          <button
            type="button"
            className="button"
            aria-label={say('web.builder.less', { what: movable.label })}
            onClick={() => movable.move(stepped(movable, movable.at, -1))}
          >
            −
          </button>
          {movable.day ? (
            <input
              ref={input}
              className="input"
              type="date"
              aria-label={movable.label}
              value={movable.day.value}
              onChange={(event) => event.target.value && movable.day?.set(event.target.value)}
            />
          ) : (
            <input
              ref={input}
              className="input"
              data-numeral
              inputMode="decimal"
              aria-label={movable.unit ? `${movable.label}, ${movable.unit}` : movable.label}
              value={typed ?? String(movable.at)}
              onChange={(event) => commit(event.target.value)}
            />
          )}
          {movable.unit ? <span aria-hidden="true">{movable.unit}</span> : null}
          <button
            type="button"
            className="button"
            aria-label={say('web.builder.more.step', { what: movable.label })}
            onClick={() => movable.move(stepped(movable, movable.at, 1))}
          >
            +
          </button>
        </div>
      )}
      <p className="field-help">
        {movable.words || movable.day
          ? (movable.help ?? '')
          : say('web.builder.range', { low: movable.low, high: movable.high, unit: movable.unit ?? '' })}
      </p>
      <button type="button" className="button" onClick={onClose}>
        {say('web.done')}
      </button>
    </fieldset>
  );
}
