import { figure, percent } from '../measure/figures.ts';
import type { Spread } from '../measure/spread.ts';
import { type Message, message } from '../wording/say.ts';
import {
  type BoxAir,
  conductanceForM3S,
  type GasShares,
  sealedHours,
  steadyGas,
  steadyVapourDensityKgM3,
  worstBetweenOpenings,
} from './box-air.ts';
import { diffusionM2S } from './diffusion.ts';
import { buoyancyFlowM3S, type Holes, heatLossWK, holesConductanceM3S, holesFor } from './holes.ts';
import { relativeHumidityOf, vapourDensityKgM3 } from './humid-air.ts';

/** Oxygen wanted in the box: half a point under outdoors, far above anything known to matter to a turtle. */
const KEEP_OXYGEN = 0.205;
/** Under this the advice is to act, not to improve. */
const LEAST_OXYGEN = 0.19;
/** Holes that carry more than this share of the box's heat cost steadiness. */
const COSTLY_SHARE = 0.1;
/** Air changed when a lid is lifted for a minute or two, lowest likely share: still cold air stays in the bottom. */
const LID_EXCHANGE = 0.5;
const DAY_S = 86_400;

/** A box whose air is asked about. */
export interface AirQuestion {
  /** Air in the box without animal, bedding and bottles. */
  readonly freeVolumeM3: number;
  readonly tempC: number;
  /** Oxygen all its animals use, ml/h, with its range. */
  readonly oxygenMlH: Spread;
  readonly respiratoryQuotient: number;
  readonly holes: readonly Holes[];
  /** The kind of hole that would be added: its width, and the thickness of the wall. */
  readonly newHole: { readonly diameterMm: number; readonly depthMm: number };
  /** Height from the lower to the upper holes; 0 when all are at one height. */
  readonly riseM: number;
  /** Usual difference between the box and the air around it, K. */
  readonly differenceK: number;
  /** What the box itself loses, W/K. */
  readonly boxLossWK: number;
  readonly lidEveryDays?: number;
  /** k A of all its animals (see the water loss of the physiology room) and the humidity around the box, to say how damp it turns. */
  readonly damp?: { readonly evaporationM3S: number; readonly humidityAround: number };
}

export interface AirAnswer {
  readonly state: 'enough' | 'too-few' | 'more-than-needed';
  /** Steady shares at the usual, and at the highest, demand; by diffusion alone. */
  readonly usual: GasShares;
  readonly worst: GasShares;
  /** Just before the lid is opened, at the highest demand. */
  readonly beforeOpening?: GasShares;
  /** Holes of the new kind, in all, for 20.5 % by diffusion alone at the usual and at the highest demand. */
  readonly holesWanted: { readonly usual: number; readonly worst: number };
  /** Hours until sealed air would reach 19 %. */
  readonly sealedH: Spread;
  /** Air through the present holes, l/h of what a gas difference drives: diffusion, and with buoyancy. */
  readonly supplyLH: { readonly floor: number; readonly likely: number };
  /** Heat the present holes carry when buoyancy works, W/K, and its share of all the box loses. */
  readonly holeLossWK: number;
  readonly holeLossShare: number;
  /** Relative humidity the air settles at with dry bedding and tight walls: holes by diffusion alone, and with buoyancy. */
  readonly settledHumidity?: { readonly floor: number; readonly likely: number };
  readonly messages: readonly Message[];
}

/**
 * Holes against steadiness: whether the air is enough by diffusion alone (the floor), what the same holes pass when warm air
 * rises, and what heat that takes with it.
 */
export function adviseAir(question: AirQuestion): AirAnswer {
  const oxygenM2S = diffusionM2S('oxygen', question.tempC);
  const floorM3S = holesConductanceM3S(question.holes, oxygenM2S);
  const risingM3S = rising(question);
  const box = (oxygenMlH: number): BoxAir => ({
    freeVolumeM3: question.freeVolumeM3,
    oxygenMlH,
    respiratoryQuotient: question.respiratoryQuotient,
    oxygenM3S: floorM3S,
    carbonDioxideM3S: holesConductanceM3S(question.holes, diffusionM2S('carbonDioxide', question.tempC)),
  });
  const { low, mid, high } = question.oxygenMlH;
  const usual = steadyGas(box(mid));
  const worst = steadyGas(box(high));
  const beforeOpening =
    question.lidEveryDays === undefined
      ? undefined
      : worstBetweenOpenings(box(high), question.lidEveryDays * DAY_S, LID_EXCHANGE);
  const wanted = (oxygenMlH: number) =>
    Math.ceil(holesFor(conductanceForM3S(oxygenMlH, KEEP_OXYGEN), question.newHole, oxygenM2S) - 1e-9);
  const holesWanted = { usual: wanted(mid), worst: wanted(high) };
  const holeLossWK = heatLossWK(risingM3S);
  const holeLossShare = holeLossWK / (holeLossWK + question.boxLossWK);
  // Enough on the worst day by diffusion alone is enough; costly and more than that is more than needed.
  const state = worst.oxygen < KEEP_OXYGEN ? 'too-few' : holeLossShare > COSTLY_SHARE ? 'more-than-needed' : 'enough';
  const hours = (oxygenMlH: number) => sealedHours(box(oxygenMlH), LEAST_OXYGEN).fixedVolume;
  const lH = (m3s: number) => m3s * 3.6e6;
  const sealedH = { low: hours(high), mid: hours(mid), high: hours(low) };
  const messages: Message[] = [
    message(`air.holes.${state}`, {
      oxygen: percent(worst.oxygen, 1),
      dioxide: percent(worst.carbonDioxide, 1),
      wanted: figure(holesWanted.worst),
      diameter: figure(question.newHole.diameterMm),
      loss: figure(holeLossWK, 3),
      share: percent(holeLossShare),
    }),
    message('air.holes.range', { floor: figure(lH(floorM3S), 1), likely: figure(lH(floorM3S + risingM3S), 1) }),
    message('air.sealed', { days: figure(sealedH.low / 24, 1), usual: figure(sealedH.mid / 24, 1) }),
  ];
  if (beforeOpening && question.lidEveryDays !== undefined)
    messages.push(
      message('air.lid', { days: figure(question.lidEveryDays), oxygen: percent(beforeOpening.oxygen, 1) }),
    );
  const settledHumidity = settled(question, risingM3S);
  if (settledHumidity)
    messages.push(
      message('air.settled', { damp: percent(settledHumidity.floor), fresh: percent(settledHumidity.likely) }),
    );
  if (worst.oxygen < LEAST_OXYGEN && (beforeOpening?.oxygen ?? 0) < LEAST_OXYGEN) messages.push(message('air.low'));
  return {
    state,
    usual,
    worst,
    ...(beforeOpening ? { beforeOpening } : {}),
    holesWanted,
    sealedH,
    supplyLH: { floor: lH(floorM3S), likely: lH(floorM3S + risingM3S) },
    holeLossWK,
    holeLossShare,
    ...(settledHumidity ? { settledHumidity } : {}),
    messages,
  };
}

function settled(question: AirQuestion, risingM3S: number): { floor: number; likely: number } | undefined {
  if (!question.damp) return undefined;
  const { evaporationM3S, humidityAround } = question.damp;
  const saturated = vapourDensityKgM3(question.tempC, 1);
  const around = vapourDensityKgM3(question.tempC, humidityAround);
  const diffusionM3S = holesConductanceM3S(question.holes, diffusionM2S('waterVapour', question.tempC));
  const at = (openingsM3S: number) =>
    relativeHumidityOf(steadyVapourDensityKgM3(saturated, around, evaporationM3S, openingsM3S), question.tempC);
  return { floor: at(diffusionM3S), likely: at(diffusionM3S + risingM3S) };
}

/** Half the holes low and half high, as the box is drilled; none rises through a single hole. */
function rising(question: AirQuestion): number {
  const most = question.holes.reduce<Holes | undefined>(
    (a, b) => (a && a.count * a.diameterMm ** 2 >= b.count * b.diameterMm ** 2 ? a : b),
    undefined,
  );
  if (!most || question.riseM === 0) return 0;
  const areaShare =
    question.holes.reduce((sum, holes) => sum + holes.count * holes.diameterMm ** 2, 0) /
    (most.count * most.diameterMm ** 2);
  const half = { ...most, count: (most.count * areaShare) / 2 };
  return buoyancyFlowM3S({
    lower: half,
    upper: half,
    riseM: question.riseM,
    insideC: question.tempC + question.differenceK,
    outsideC: question.tempC,
  });
}
