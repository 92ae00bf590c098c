import { useMemo, useState } from 'react';
import { adviseAir } from '../../air/air-advice.ts';
import { adviseHumidity } from '../../air/humidity-advice.ts';
import type { AnswerOverWinters } from '../../heat/answer.ts';
import type { BoxFigures } from '../../heat/forecast.ts';
import { OXYGEN_AT_5C, OXYGEN_MASS_EXPONENT, RQ_FAT, USUAL_BOX_AIR, USUAL_LOSS } from '../../physiology/constants.ts';
import { oxygenUseMlH } from '../../physiology/metabolic-rate.ts';
import { evaporationM3S } from '../../physiology/water-loss.ts';
import { say } from '../../wording/say.ts';
import { Field, typedNumber } from '../parts/field.tsx';
import { SourceLine, Why } from '../parts/text.tsx';
import type { Build } from './build.ts';

const LID_EVERY_DAYS = 7;
/** Air over the box in the usual difference from the air round it, K: the animal and the slow walls keep it so. */
const USUAL_DIFFERENCE_K = 1;

interface AirProps {
  readonly build: Build;
  readonly answer: AnswerOverWinters;
  readonly box: BoxFigures;
}

/** Whether the holes give enough air, what they cost in steadiness, and how damp it turns: beside the holes they are about. */
export function Air({ build, answer, box }: AirProps) {
  const [damp, setDamp] = useState(String(Math.round(USUAL_BOX_AIR.relativeHumidity * 100)));
  const typed = typedNumber(damp);
  const around = typed !== undefined && typed > 0 && typed <= 100 ? typed / 100 : undefined;
  const found = useMemo(() => {
    const massKg = build.animalG / 1000;
    // The mean of an ordinary winter there, in the range for which the animal's use of oxygen is known.
    const tempC = Math.max(-1, Math.min(25, answer.meanC.median));
    const boxMm3 = build.innerLengthMm * build.innerWidthMm * Math.max(10, build.innerHeightMm - build.beddingMm);
    const air = adviseAir({
      freeVolumeM3: Math.max(1e-4, boxMm3 * 1e-9 - massKg / 1000),
      tempC,
      oxygenMlH: oxygenUseMlH(massKg, tempC),
      respiratoryQuotient: RQ_FAT.value,
      holes: build.holes > 0 ? [{ count: build.holes, diameterMm: build.holeMm, depthMm: build.wallMm }] : [],
      newHole: { diameterMm: build.holeMm, depthMm: build.wallMm },
      riseM: (build.innerHeightMm + 2 * build.fillMm) / 2000,
      differenceK: USUAL_DIFFERENCE_K,
      boxLossWK: box.lossWK,
      lidEveryDays: LID_EVERY_DAYS,
      ...(around === undefined ? {} : { damp: { evaporationM3S: evaporationM3S(massKg), humidityAround: around } }),
    });
    const settled = air.settledHumidity;
    return { air, humidity: settled ? adviseHumidity(tempC, Math.min(1, settled.likely)) : undefined };
  }, [build, answer, box, around]);
  const { air, humidity } = found;
  return (
    <section aria-labelledby="air">
      <h2 id="air">{say('web.air.title')}</h2>
      <div className="columns">
        <div>
          <h3>{say('web.air.holes', { count: build.holes, diameter: build.holeMm })}</h3>
          <p>
            <strong>{say(`web.air.${air.state}`)}</strong> {say(air.messages[0]!)}
          </p>
          <Why>
            {air.messages.slice(1).map((one) => (
              <p key={one.key}>{say(one)}</p>
            ))}
            <p>{say('web.air.how')}</p>
            <SourceLine source={OXYGEN_AT_5C.source} />
            <SourceLine source={OXYGEN_MASS_EXPONENT.source} />
          </Why>
        </div>
        <div>
          <h3>{say('web.air.damp')}</h3>
          <Field
            label={say('web.air.around')}
            kind="number"
            unit="%"
            value={damp}
            onChange={setDamp}
            error={around === undefined ? say('web.error.number') : undefined}
          />
          {humidity ? (
            <>
              <p>{say(humidity.messages[0]!.say)}</p>
              <Why>
                {humidity.messages.map((one) => (
                  <div key={one.say.key}>
                    <p>{say(one.say)}</p>
                    <SourceLine source={one.source} />
                  </div>
                ))}
                <SourceLine source={USUAL_LOSS.source} />
              </Why>
            </>
          ) : null}
        </div>
      </div>
    </section>
  );
}
