import type { AnswerOverWinters, Spread } from '../../heat/answer.ts';
import type { BoxFigures } from '../../heat/forecast.ts';
import { figure, percent } from '../../measure/figures.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import type { Build } from './build.ts';

interface Figures {
  readonly answer: AnswerOverWinters;
  /** Absent in a refrigerator. */
  readonly box?: BoxFigures | undefined;
}

/** A build set beside the others. */
export interface Kept extends Figures {
  readonly id: string;
  readonly name: string;
  readonly build: Build;
}

interface ComparisonProps {
  readonly name: string;
  readonly forecast: Figures;
  readonly kept: readonly Kept[];
  readonly onKeep: () => void;
  readonly onDrop: (id: string) => void;
  readonly onBack: (one: Kept) => void;
}

const MOST_BESIDE = 3;

/** Up to four builds side by side, each figure as its middle over the winters with the range of nine in ten. */
export function Comparison({ name, forecast, kept, onKeep, onDrop, onBack }: ComparisonProps) {
  const { temperature, difference } = useFigures();
  const under = (answer: AnswerOverWinters, limitC: number) =>
    answer.hoursUnder.find((one) => one.limitC === limitC)?.hours;
  const over = (answer: AnswerOverWinters, limitC: number) =>
    answer.hoursOver.find((one) => one.limitC === limitC)?.hours;
  // The unit is told once: "62 % (43 to 84)".
  const bare = (told: string) => told.replace(/\u00a0.*$/, '');
  const spread = (of: Spread | undefined, tell: (value: number) => string) =>
    of === undefined
      ? ''
      : tell(of.low) === tell(of.high)
        ? tell(of.median)
        : say('web.builder.spread', { middle: tell(of.median), low: bare(tell(of.low)), high: bare(tell(of.high)) });
  const hours = (value: number) => say('web.readings.hours', { count: figure(value) });
  const heads = [
    say('web.builder.col.band', { low: temperature(3, 0), high: temperature(8, 0) }),
    say('web.builder.col.under', { limit: temperature(2, 0) }),
    say('web.builder.col.over', { limit: temperature(10, 0) }),
    say('web.builder.col.coldest'),
    say('web.builder.col.swing'),
    say('web.builder.col.holds'),
  ];
  const cells = ({ answer, box }: Figures) => [
    spread(answer.steadiness, (value) => percent(value)),
    spread(under(answer, 2), hours),
    spread(over(answer, 10), hours),
    spread(answer.coldestC, (value) => temperature(value)),
    difference(answer.meanDailySwingK.median),
    box
      ? say('web.builder.onePart', { count: Number(box.dampingOneIn.toFixed(box.dampingOneIn < 10 ? 1 : 0)) })
      : say('web.builder.byThermostat'),
  ];
  const row = (label: string, of: Figures, one?: Kept) => (
    <tr key={one?.id ?? 'now'} data-front={one ? undefined : ''}>
      <th scope="row">
        {label}
        {one ? (
          <span className="no-print">
            {' '}
            <button type="button" className="button" data-kind="word" onClick={() => onBack(one)}>
              {say('web.builder.bring')}
            </button>{' '}
            <button type="button" className="button" data-kind="word" onClick={() => onDrop(one.id)}>
              {say('web.builder.drop')}
            </button>
          </span>
        ) : null}
      </th>
      {cells(of).map((cell, index) => (
        <td data-number data-label={heads[index]} key={heads[index]}>
          {cell}
        </td>
      ))}
    </tr>
  );
  return (
    <section aria-labelledby="beside">
      <h2 id="beside">{say('web.builder.table')}</h2>
      <p className="small soft">{say('web.builder.tableNote')}</p>
      <div className="wide">
        <table data-fold>
          <thead>
            <tr>
              <th scope="col">{say('web.builder.col.build')}</th>
              {heads.map((head) => (
                <th scope="col" data-number key={head}>
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {row(name, forecast)}
            {kept.map((one) => row(one.name, one, one))}
          </tbody>
        </table>
      </div>
      <div className="actions">
        <button type="button" className="button" disabled={kept.length >= MOST_BESIDE} onClick={onKeep}>
          {say('web.builder.keep')}
        </button>
        {kept.length >= MOST_BESIDE ? <span className="soft">{say('web.builder.keepFull')}</span> : null}
      </div>
    </section>
  );
}
