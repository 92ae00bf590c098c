import { HOUSES, madeWinter } from '../../test/winter/support/real-winters.ts';
import { score } from '../../test/winter/support/replay-score.ts';

/**
 * Would the watch have spoken in time? Three whole winters of real weather (Seattle 2012-2015, NOAA), as they were and up to
 * 4 K colder, through four houses and boxes solved by an independent solver, with animals, noisy probes, gaps, mistyped
 * weigh-ins and imperfect forecasts. One JSON line per group and one for all; exit 1 when a promise is broken: every act-now
 * stretch announced, at most one act-now without ground per animal and winter, nine in ten foreseeable breaches 12 h ahead.
 */
const SHIFTS = [-4, -2, -1, 0];
const ROUNDS = 5;

const total = {
  winters: 0,
  due: 0,
  told: 0,
  falseActNow: 0,
  worstFalse: 0,
  foreseeable: 0,
  announced: 0,
  notices: 0,
  actNow: 0,
};
let seed = 1000;
for (const house of HOUSES) {
  const group = {
    ...total,
    winters: 0,
    due: 0,
    told: 0,
    falseActNow: 0,
    worstFalse: 0,
    foreseeable: 0,
    announced: 0,
    notices: 0,
    actNow: 0,
  };
  for (const year of [2012, 2013, 2014])
    for (const shiftK of SHIFTS)
      for (let round = 0; round < ROUNDS; round++) {
        const one = score(madeWinter(seed++, year, house, shiftK));
        for (const missed of one.missed) process.stdout.write(`${JSON.stringify({ name: 'replay-missed', missed })}\n`);
        for (const into of [group, total]) {
          into.winters++;
          into.falseActNow += one.falseActNow.length;
          into.worstFalse = Math.max(into.worstFalse, one.falseActNow.length);
          for (const key of ['due', 'told', 'foreseeable', 'announced', 'notices', 'actNow'] as const)
            into[key] += one[key];
        }
      }
  process.stdout.write(`${JSON.stringify({ name: 'replay-winters', house: house.name, ...group })}\n`);
}
const recall = total.told / total.due;
const ahead = total.announced / total.foreseeable;
process.stdout.write(
  `${JSON.stringify({ name: 'replay-winters', house: 'all', ...total, recall, falseActNowPerWinter: total.falseActNow / total.winters, announced12hAhead: ahead })}\n`,
);
process.exitCode = recall === 1 && total.worstFalse <= 1 && ahead >= 0.9 ? 0 : 1;
