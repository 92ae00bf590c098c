import { figure, percent } from '../../measure/figures.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { Why } from '../parts/text.tsx';
import type { Forecast, ProbeDifference } from './forecast.worker.ts';

/** What is to be known beside the curves: hours not known, the probe, a power cut, and what was taken for granted. */
export function BesideChart({ forecast }: { readonly forecast: Forecast }) {
  const { answer, refrigerator, probe, notes } = forecast;
  const unknown = Math.round(answer.unknownHours);
  return (
    <>
      {unknown > 0 && !forecast.read ? (
        <p>{say('web.builder.unknownHours', { count: unknown, hours: figure(unknown) })}</p>
      ) : null}
      {refrigerator ? <Refrigerator of={refrigerator} /> : null}
      {refrigerator ? notes.map((note) => <p key={note.key}>{say(note)}</p>) : null}
      {probe ? <Probe of={probe} /> : null}
      {!refrigerator && notes.length > 0 ? (
        <Why label={say('web.builder.granted')}>
          <ul>
            {notes.map((note) => (
              <li key={note.key}>{say(note)}</li>
            ))}
          </ul>
        </Why>
      ) : null}
    </>
  );
}

/** A difference told with its side; `K` below what the figure shows is no difference. */
function useSided() {
  const { difference } = useFigures();
  return (differenceK: number) =>
    Math.abs(differenceK) < 0.05
      ? say('web.builder.probeSame')
      : say(differenceK > 0 ? 'web.builder.probeWarmer' : 'web.builder.probeColder', {
          difference: difference(Math.abs(differenceK)),
        });
}

function Probe({ of }: { readonly of: ProbeDifference }) {
  const { difference } = useFigures();
  const sided = useSided();
  return say('web.builder.probeReads', {
    low: difference(Math.max(0, -of.lowestK)),
    high: difference(Math.max(0, of.highestK)),
    mean: sided(of.meanK),
  });
}

function Refrigerator({ of }: { readonly of: NonNullable<Forecast['refrigerator']> }) {
  const { temperature } = useFigures();
  const sided = useSided();
  const after = (hours: number | undefined) =>
    hours === undefined
      ? say('web.builder.cutNever')
      : say('web.builder.cutAfter', { hours: figure(hours, hours < 10 ? 1 : 0) });
  return (
    <>
      <p>
        <strong>
          {say('web.builder.cut', {
            warm: temperature(8, 0),
            to8: after(of.powerCut.hoursTo8),
            hot: temperature(10, 0),
            to10: after(of.powerCut.hoursTo10),
          })}
        </strong>
      </p>
      <p>{say('web.builder.duty', { share: percent(of.duty), shelves: sided(of.shelfDifferenceK) })}</p>
      <p>{say('web.builder.coldCaution')}</p>
    </>
  );
}
