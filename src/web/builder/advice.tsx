import { useEffect, useState } from 'react';
import type { AnswerOverWinters } from '../../heat/answer.ts';
import { addDays } from '../../measure/day.ts';
import { percent } from '../../measure/figures.ts';
import { say } from '../../wording/say.ts';
import { useFigures } from '../data/group.ts';
import { capital } from '../parts/text.tsx';
import { type Build, placePresets } from './build.ts';
import { wordFor } from './words.ts';

interface Change {
  readonly id: string;
  readonly text: string;
  readonly build: Build;
}

interface Result extends Change {
  readonly answer: AnswerOverWinters;
}

/** Single changes a keeper could make to this build. */
function changesOf(build: Build): Change[] {
  const list: Change[] = [
    {
      id: 'wall',
      text: say('web.advice.wall', { thickness: build.wallMm + 30 }),
      build: { ...build, wallMm: build.wallMm + 30 },
    },
    {
      id: 'water',
      text: say('web.advice.water', { litres: (build.bottles + 4) * 1.5 }),
      build: { ...build, bottles: build.bottles + 4 },
    },
    {
      id: 'fill',
      text: say('web.advice.fill', { thickness: build.fillMm + 60 }),
      build: { ...build, fillMm: build.fillMm + 60 },
    },
    {
      id: 'later',
      text: say('web.advice.later'),
      build: { ...build, fromDay: addDays(build.fromDay, 14), toDay: addDays(build.toDay, 14) },
    },
    {
      id: 'earlier',
      text: say('web.advice.earlier'),
      build: { ...build, fromDay: addDays(build.fromDay, -14), toDay: addDays(build.toDay, -14) },
    },
    {
      id: 'shorter',
      text: say('web.advice.shorter'),
      build: { ...build, toDay: addDays(build.toDay, -14) },
    },
  ];
  for (const preset of ['cellar', 'brick-outbuilding', 'timber-shed', 'unheated-room'] as const)
    if (build.placeId !== undefined || preset !== build.preset)
      list.push({
        id: `place-${preset}`,
        text: say('web.advice.place', { place: wordFor.place(placePresets.find((one) => one === preset) ?? preset) }),
        build: { ...build, placeId: undefined, preset },
      });
  return list;
}

interface AdviceProps {
  readonly build: Build;
  readonly now: AnswerOverWinters;
  readonly ask: (build: Build) => Promise<{ answer: AnswerOverWinters }>;
}

const cold = (answer: AnswerOverWinters) =>
  Math.round(answer.hoursUnder.find((one) => one.limitC === 2)?.hours.median ?? 0);

/** Hours out of the band in an ordinary winter, those that harm counting far more. */
const harm = (answer: AnswerOverWinters) => {
  const cold = answer.hoursUnder.find((one) => one.limitC === 2)?.hours.high ?? 0;
  const warm = answer.hoursOver.find((one) => one.limitC === 10)?.hours.high ?? 0;
  return 1 - answer.steadiness.median + (cold + warm) / 200;
};

/** Which single change helps most, tried one after the other on the same winters. */
export function Advice({ build, now, ask }: AdviceProps) {
  const { temperature } = useFigures();
  const [results, setResults] = useState<readonly Result[]>([]);
  const key = JSON.stringify(build);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new build is what starts the trial, not a new function
  useEffect(() => {
    let over = false;
    setResults([]);
    const run = async () => {
      const found: Result[] = [];
      for (const change of changesOf(JSON.parse(key) as Build)) {
        const tried = await ask(change.build).catch(() => undefined);
        if (over) return;
        if (tried) found.push({ ...change, answer: tried.answer });
      }
      setResults(found);
    };
    void run();
    return () => {
      over = true;
    };
  }, [key]);
  if (results.length === 0) return null;
  const before = harm(now);
  const better = results
    .map((one) => ({ ...one, gain: before - harm(one.answer) }))
    .filter((one) => one.gain > 0.02)
    .sort((a, b) => b.gain - a.gain);
  const water = results.find((one) => one.id === 'water');
  const waterIdle = water && before - harm(water.answer) < 0.01;
  const tooWarm = now.meanC.median > 8;
  const best = better.slice(0, 3);
  return (
    <section aria-labelledby="helps">
      <h2 id="helps">{say('web.builder.help.title')}</h2>
      {tooWarm ? <p>{say('web.advice.tooWarm', { mean: temperature(now.meanC.median) })}</p> : null}
      {best.length === 0 ? (
        <p>{say(now.steadiness.median > 0.95 ? 'web.advice.good' : 'web.advice.nothing')}</p>
      ) : (
        <ol className="plain">
          {best.map((one) => (
            <li key={one.id}>
              {say('web.advice.gain', {
                change: capital(one.text),
                before: percent(now.steadiness.median),
                after: percent(one.answer.steadiness.median),
                limit: temperature(2, 0),
                coldBefore: cold(now),
                coldAfter: cold(one.answer),
              })}
            </li>
          ))}
        </ol>
      )}
      {waterIdle && !tooWarm ? <p>{say('web.advice.notWater')}</p> : null}
      {better[0] && better[0].answer.steadiness.low < 0.8 ? <p>{say('web.advice.fridge')}</p> : null}
    </section>
  );
}
