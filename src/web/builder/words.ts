import { figure } from '../../measure/figures.ts';
import { type MessageKey, say } from '../../wording/say.ts';
import type { Build, beddings, fills, wallMaterials } from './build.ts';

/** A size with as many decimals as it has, at most so many: 14, 102.5. */
export const sized = (value: number, most = 1): string => {
  const digits = [0, 1, 2].find((one) => one >= most || Math.abs(value - Number(value.toFixed(one))) < 1e-9) ?? most;
  return figure(value, digits);
};

/** What a keeper calls the things a box and a place are made of. */
export const wordFor = {
  material: (id: (typeof wallMaterials)[number]) => say(`web.word.${id}`),
  fill: (id: (typeof fills)[number]) => say(id === 'polystyrene' ? 'web.word.polystyrene-fill' : `web.word.${id}`),
  bedding: (id: (typeof beddings)[number]) => say(`web.word.${id}`),
  inner: (id: Build['innerMaterial']) => say(`web.word.inner.${id}`),
  lid: (id: Build['lidFit']) => say(`web.word.lid.${id}`),
  place: (id: Build['preset']) => say(`web.word.place.${id}`),
  probe: (at: Build['probeAt']) => say(`web.word.probe.${at}`),
  refrigerator: (size: Build['refrigerator']['preset']) => say(`web.word.refrigerator.${size}`),
  fan: (fan: boolean) => say(fan ? 'web.word.fan.yes' : 'web.word.fan.no'),
  shelf: (shelf: Build['refrigerator']['shelf']) => say(`web.word.shelf.${shelf}`),
  facing: (deg: number) => say(`web.word.facing.${(((Math.round(deg / 45) * 45) % 360) + 360) % 360}` as MessageKey),
};
