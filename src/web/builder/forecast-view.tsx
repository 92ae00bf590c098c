import { memo, useId, useState } from 'react';
import { isWhole, type WinterAnswer } from '../../heat/answer.ts';
import { addDays, type Day } from '../../measure/day.ts';
import { figure, percent } from '../../measure/figures.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { capital } from '../parts/text.tsx';
import { BesideChart } from './beside-chart.tsx';
import { FiguresTable } from './figures-table.tsx';
import type { Forecast } from './forecast.worker.ts';
import { ReadCover } from './read-cover.tsx';
import { WintersChart } from './winters-chart.tsx';

const BAND = { lowC: 3, highC: 8 };

/** A generated winter bears only a number. */
const winterName = (label: string) =>
  /^\d{1,3}$/.test(label) ? say('web.builder.winterLabel', { number: label }) : label;

interface ForecastViewProps {
  readonly forecast: Forecast;
  /** First day of the sleep that was asked for. */
  readonly fromDay: Day;
}

/**
 * All winters of one build: the chart with one in front, its story in a sentence, and each winter's figures. Drawn anew only when a
 * forecast has come, not while the sentence is typed in.
 */
export const ForecastView = memo(function ForecastView(props: ForecastViewProps) {
  const { forecast } = props;
  const figures = useFigures();
  const id = useId();
  const [chosen, setChosen] = useState('');
  const label = chosen || forecast.answer.worstWinter;
  const front = Math.max(
    0,
    forecast.winters.findIndex((one) => one.label === label),
  );
  const shown = forecast.winters[front];
  const cold = forecast.refrigerator !== undefined;
  const toDay = addDays(props.fromDay, forecast.question.sleep.days);
  return (
    <figure className="winters">
      {cold || forecast.winters.length === 1 ? null : (
        <div className="winters-head no-print">
          <label htmlFor={id}>{say('web.builder.front')}</label>
          <select id={id} value={chosen} onChange={(event) => setChosen(event.target.value)}>
            <option value="">
              {say('web.builder.worst')} ({winterName(forecast.answer.worstWinter)})
            </option>
            {forecast.winters.map((one) => (
              <option key={one.label} value={one.label}>
                {winterName(one.label)}
              </option>
            ))}
          </select>
        </div>
      )}
      {shown ? (
        <p
          className="front-story"
          role="status"
          data-trouble={hoursUnder(shown.answer, 2) + hoursOver(shown.answer, 10) > 0 ? '' : undefined}
        >
          <FrontStory
            answer={shown.answer}
            worst={!cold && forecast.winters.length > 1 && shown.label === forecast.answer.worstWinter}
            winters={forecast.winters.length}
          />
        </p>
      ) : null}
      <WintersChart
        winters={forecast.winters}
        front={front}
        fromDay={props.fromDay}
        toDay={toDay}
        band={BAND}
        degrees={(tempC) => figures.temperature(tempC, 0)}
      />
      <figcaption className="small soft">
        {say(
          cold
            ? 'web.builder.chartCaption.cold'
            : forecast.read
              ? 'web.builder.chartCaption.read'
              : 'web.builder.chartCaption',
        )}
      </figcaption>
      <ReadCover forecast={forecast} />
      <BesideChart forecast={forecast} />
      <details className="why">
        <summary>{say('web.builder.winters')}</summary>
        <EachWinter forecast={forecast} />
      </details>
    </figure>
  );
});

const hoursUnder = (answer: WinterAnswer, limitC: number) =>
  Math.round(answer.under.find((one) => one.limitC === limitC)?.hours ?? 0);
const hoursOver = (answer: WinterAnswer, limitC: number) =>
  Math.round(answer.over.find((one) => one.limitC === limitC)?.hours ?? 0);

function FrontStory(props: { readonly answer: WinterAnswer; readonly worst: boolean; readonly winters: number }) {
  const { temperature } = useFigures();
  const { answer, worst, winters } = props;
  const cold = hoursUnder(answer, 2);
  const warm = hoursOver(answer, 10);
  const limits = { cold: temperature(2, 0), warm: temperature(10, 0) };
  const partly = !isWhole(answer);
  return say(partly ? 'web.builder.frontStory.part' : 'web.builder.frontStory', {
    hours: figure(answer.hours - answer.unknownHours),
    winter: worst ? say('web.builder.worstOf', { count: winters }) : capital(winterName(answer.winter)),
    share: percent(answer.steadiness),
    cold:
      cold > 0
        ? say('web.builder.coldHours', { count: cold, hours: figure(cold), limit: limits.cold })
        : say('web.builder.noCold', { limit: limits.cold }),
    warm:
      warm > 0
        ? say('web.builder.warmHours', { count: warm, hours: figure(warm), limit: limits.warm })
        : say('web.builder.noWarm', { limit: limits.warm }),
  });
}

function EachWinter({ forecast }: { readonly forecast: Forecast }) {
  const { temperature, difference } = useFigures();
  const band = { low: temperature(BAND.lowC, 0), high: temperature(BAND.highC, 0) };
  return (
    <FiguresTable
      of={say('web.builder.col.winter')}
      heads={[
        say('web.builder.col.band', band),
        say('web.builder.col.under', { limit: temperature(2, 0) }),
        say('web.builder.col.over', { limit: temperature(10, 0) }),
        say('web.builder.col.coldest'),
        say('web.builder.col.swing'),
      ]}
      rows={forecast.winters.map(({ label, answer }) => ({
        key: label,
        name: winterName(label),
        front: label === forecast.answer.worstWinter,
        cells: [
          percent(answer.steadiness),
          say('web.readings.hours', { count: figure(hoursUnder(answer, 2)) }),
          say('web.readings.hours', { count: figure(hoursOver(answer, 10)) }),
          temperature(answer.coldestC),
          difference(answer.meanDailySwingK),
        ],
      }))}
    />
  );
}
