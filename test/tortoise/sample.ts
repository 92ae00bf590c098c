import type { AssessInput, Findings, History } from '../../src/tortoise/types.ts';

export const clearFindings: Findings = {
  eyes: 'clear',
  nose: 'clear',
  mouth: 'clear',
  limbs: 'clear',
  shell: 'clear',
  tail: 'clear',
  breathing: 'clear',
  droppings: 'clear',
};

export const goodHistory: History = {
  acquiredOn: '2015-05-01',
  illness: false,
  treatment: false,
  parasitesChecked: true,
  carryingEggs: false,
  appetiteNormal: true,
  weightNormal: true,
  hydrated: true,
};

/** A healthy grown female of whom everything is known, with whatever a test changes. */
export function animal(change: Partial<AssessInput> = {}): AssessInput {
  return {
    species: 'Testudo hermanni boettgeri',
    sex: 'female',
    massG: 1240,
    sclMm: 182,
    ageYears: 14,
    onDay: '2026-09-20',
    moment: 'deciding',
    lengthAdvice: 'uk-joint-2016',
    hesitantKeeper: false,
    examination: clearFindings,
    history: goodHistory,
    ...change,
  };
}

export const withHistory = (change: Partial<History>, rest: Partial<AssessInput> = {}): AssessInput =>
  animal({ ...rest, history: { ...goodHistory, ...change } });
