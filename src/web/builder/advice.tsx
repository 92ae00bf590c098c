import { HUNDRED_FROM } from '../../heat/advice.ts';
import { figure, percent } from '../../measure/figures.ts';
import { type MessageKey, say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { sayDay } from '../parts/dates.ts';
import { Why } from '../parts/text.tsx';
import { FiguresTable } from './figures-table.tsx';
import type { Advised, ConfirmedBuild, PlaceOffered, Question } from './forecast.worker.ts';
import { useAdvice } from './use-advice.ts';
import type { WinterThread } from './use-worker.ts';

interface AdviceProps {
  readonly start: (() => WinterThread) | undefined;
  readonly question: Question;
  /** Name of the place the build stands in. */
  readonly here: string;
  readonly others: readonly PlaceOffered[];
  readonly onShow: (build: ConfirmedBuild) => void;
  readonly onRefrigerator: () => void;
}

/** What would make the build stay in its band: the search over builds a keeper could make, and what each value does. */
export function Advice({ start, question, here, others, onShow, onRefrigerator }: AdviceProps) {
  const { state, stop, again } = useAdvice(start, question, here, others);
  return (
    <section aria-labelledby="helps">
      <h2 id="helps">{say('web.builder.help.title')}</h2>
      {state.at === 'working' ? (
        <div className="search-runs" role="status">
          <label>
            {say('web.advice.working')}{' '}
            <progress value={state.share} max={1}>
              {percent(state.share)}
            </progress>
          </label>
          <button type="button" className="button" onClick={stop}>
            {say('web.advice.stop')}
          </button>
        </div>
      ) : null}
      {state.at === 'waiting' ? <p className="soft">{say('web.advice.waiting')}</p> : null}
      {state.at === 'stopped' ? (
        <p>
          {say('web.advice.stopped')}{' '}
          <button type="button" className="button" onClick={again}>
            {say('web.advice.again')}
          </button>
        </p>
      ) : null}
      {state.at === 'done' ? (
        <Found
          question={question}
          advised={state.advised}
          here={here}
          others={others}
          onShow={onShow}
          onRefrigerator={onRefrigerator}
        />
      ) : null}
    </section>
  );
}

/** Sentences of the advice that the list of builds tells already. */
const listed: ReadonlySet<MessageKey> = new Set([
  'heat.advice.found',
  'heat.advice.build',
  'heat.advice.build-elsewhere',
]);

interface FoundProps extends Pick<AdviceProps, 'question' | 'here' | 'others' | 'onShow' | 'onRefrigerator'> {
  readonly advised: Advised;
}

function Found({ question, advised, here, others, onShow, onRefrigerator }: FoundProps) {
  const { advice, best } = advised;
  const placeName = (id: string) => others.find((one) => one.id === id)?.name ?? here;
  const messages = advice.messages.filter((one) => !listed.has(one.key));
  return (
    <>
      {messages.map((one) => (
        <p key={one.key}>{say(one)}</p>
      ))}
      {best.length > 0 ? (
        <Best best={best} search={advice.search} placeName={placeName} onShow={onShow} />
      ) : (
        <>
          {advice.search.best.length > 0 ? <p>{say('web.advice.noneWithIce')}</p> : null}
          <p>
            <button type="button" className="button" onClick={onRefrigerator}>
              {say('web.advice.showRefrigerator')}
            </button>
          </p>
        </>
      )}
      {question.box.ballast?.length && messages.length > 0 ? (
        <p className="small soft">{say('web.advice.means')}</p>
      ) : null}
      <Doubts advised={advised} />
      <Sensitivities advised={advised} />
    </>
  );
}

function Best(props: {
  readonly best: readonly ConfirmedBuild[];
  readonly search: Advised['advice']['search'];
  readonly placeName: (id: string) => string;
  readonly onShow: (build: ConfirmedBuild) => void;
}) {
  const { temperature, today } = useFigures();
  const tried = figure(props.search.tried);
  // Other places have winters of their own: what is found there is told by the number of its own.
  const winters = Math.min(...props.best.map(({ score }) => score.winters));
  return (
    <>
      <p>
        {winters < HUNDRED_FROM
          ? say('web.advice.bestKnown', { count: winters, tried })
          : say('web.advice.best', { count: props.best.length, tried })}
      </p>
      <ol className="best-builds">
        {props.best.map((build) => {
          const told = say('web.advice.bestBuild', {
            wall: figure(build.wallMm),
            water:
              build.litres > 0
                ? say('web.advice.litres', { litres: figure(build.litres, build.litres % 1 ? 1 : 0) })
                : say('web.builder.noWater'),
            place: props.placeName(build.placeId),
            day: sayDay(`${today.slice(0, 4)}-${build.sleep.from}`, today),
          });
          return (
            <li key={`${build.placeId} ${build.wallMm} ${build.litres} ${build.sleep.from}`}>
              {told}{' '}
              {say(winters < HUNDRED_FROM ? 'web.advice.bestFigures.known' : 'web.advice.bestFigures', {
                share: percent(build.answer.steadiness.median),
                coldest: temperature(build.answer.coldestC.low),
                warmest: temperature(build.answer.warmestC.high),
              })}{' '}
              <button
                type="button"
                className="button no-print"
                aria-label={`${say('web.advice.show')}: ${told}`}
                onClick={() => props.onShow(build)}
              >
                {say('web.advice.show')}
              </button>
            </li>
          );
        })}
      </ol>
    </>
  );
}

/** How far the answer may lie off while place and box are known by words alone. */
function Doubts({ advised }: { readonly advised: Advised }) {
  const { temperature } = useFigures();
  const { doubts, steadiness, coldestC } = advised.range;
  if (doubts.length === 0) return null;
  return (
    <p>
      {say('web.advice.range', {
        doubts: doubts.map((doubt) => say(`web.advice.doubt.${doubt}`)).join(say('web.advice.and')),
        low: percent(steadiness[0]),
        high: percent(steadiness[1]),
        coldLow: temperature(coldestC[0]),
        coldHigh: temperature(coldestC[1]),
      })}
    </p>
  );
}

function Sensitivities({ advised }: { readonly advised: Advised }) {
  const { difference, temperature } = useFigures();
  const change = (hours: number) =>
    Math.abs(hours) < 0.5
      ? say('web.advice.same')
      : say(hours > 0 ? 'web.advice.hoursMore' : 'web.advice.hoursFewer', { hours: figure(Math.abs(hours)) });
  return (
    <Why label={say('web.advice.sensitivities')}>
      <p className="small soft">{say('web.advice.sensitivityNote')}</p>
      <FiguresTable
        of={say('web.advice.col.change')}
        heads={[
          say('web.advice.col.below', { limit: temperature(3, 0) }),
          say('web.advice.col.above', { limit: temperature(8, 0) }),
          say('web.advice.col.beyond', { low: temperature(2, 0), high: temperature(10, 0) }),
        ]}
        rows={advised.advice.sensitivities.map((one) => ({
          key: one.of,
          name: say(`web.advice.of.${one.of}`, { kelvin: difference(1, 0) }),
          cells: [change(one.hoursBelowBand), change(one.hoursAboveBand), change(one.hoursBeyondLimits)],
        }))}
      />
    </Why>
  );
}
