import { z } from 'zod';
import type { RefrigeratorDescription } from '../heat/description.ts';
import { refrigeratorPresets } from '../heat/refrigerator-data.ts';
import type { ExactRefrigerator } from '../heat/refrigerator-exact.ts';
import { say } from '../wording/say.ts';
import { lineSchema, optional } from './common.ts';

const above0 = (most: number, description: string) => z.number().gt(0).max(most).meta({ description });
const tempC = (description: string) => z.number().min(-60).max(70).meta({ description });
const seconds = (description: string) => z.number().min(0).max(1e8).meta({ description });
const share = z.number().min(0).max(1).meta({ description: 'Share of the air exchanged, 0 to 1' });

const hysteresis = {
  check: ({ onAtC, offAtC }: { onAtC: number; offAtC: number }) => onAtC > offAtC,
  options: { error: () => say('heat.refrigerator.hysteresis'), path: ['onAtC'] },
};

/** A refrigerator as a keeper describes it. */
export const refrigeratorSchema = z
  .strictObject({
    preset: z.enum(Object.keys(refrigeratorPresets) as (keyof typeof refrigeratorPresets)[]),
    fan: z.boolean().meta({ description: 'A fan stirs the air inside' }),
    onAtC: z.number().min(0).max(15).meta({ description: 'Air temperature at which the compressor starts, °C' }),
    offAtC: z.number().min(-5).max(14).meta({ description: 'Air temperature at which the compressor stops, °C' }),
    shelf: z.enum(['upper', 'lower']),
    ballastL: optional(
      z.number().min(0).max(200).meta({ description: 'Water bottles standing in the cabinet, litres' }),
    ),
    load: optional(
      z.strictObject({
        massKg: above0(200, 'Box and contents, kg'),
        specificHeatJkgK: above0(5000, 'Specific heat of box and contents, J/(kg K)'),
        lossWK: above0(50, 'Heat passing between box and air, W/K'),
      }),
    ),
    lossWK: optional(above0(20, 'Heat loss of the cabinet, W/K')),
    liningJK: optional(above0(1e6, 'Heat capacity of lining and shelves, J/K')),
    coolingW: optional(above0(1000, 'Heat taken out while the compressor runs, W')),
    volumeL: optional(above0(1000, 'Inside volume, litres')),
  })
  .refine(hysteresis.check, hysteresis.options)
  .meta({
    id: 'Refrigerator',
    description: 'A domestic refrigerator for the fridge method',
    examples: [{ preset: 'under-counter', fan: false, onAtC: 6, offAtC: 4, shelf: 'lower', ballastL: 5 }],
  }) satisfies z.ZodType<RefrigeratorDescription>;

const nodeName = lineSchema(60).meta({ description: 'Name of a node' });

/** Exact input: a heat network with one compressor and one thermostat. */
export const exactRefrigeratorSchema = z
  .strictObject({
    nodes: z
      .array(
        z.strictObject({
          name: nodeName,
          heatCapacityJK: above0(1e9, 'Heat capacity, J/K'),
          heatW: optional(z.number().min(-1e4).max(1e4).meta({ description: 'Steady heat set free in the node, W' })),
        }),
      )
      .min(1)
      .max(40),
    links: z
      .array(z.strictObject({ from: nodeName, to: nodeName, conductanceWK: above0(1e6, 'Conductance, W/K') }))
      .min(1)
      .max(400)
      .meta({ description: 'Conductances between nodes, or between a node and "room"' }),
    compressor: z.strictObject({ node: nodeName, coolingW: above0(1e6, 'Heat taken out while running, W') }),
    thermostat: z
      .strictObject({ node: nodeName, onAtC: tempC('Switches on at, °C'), offAtC: tempC('Switches off at, °C') })
      .refine(hysteresis.check, hysteresis.options),
    room: z.strictObject({
      stepS: above0(604_800, 'Spacing of the samples, s'),
      temperatureC: z.array(tempC('Room, °C')).min(1).max(1_000_000),
    }),
    initialC: tempC('Everything at the start, °C'),
    spanS: above0(3.2e7, 'Length of the run, s'),
    sampleS: above0(3.2e7, 'Spacing of the temperatures returned, s'),
    doors: optional(
      z
        .array(z.strictObject({ atS: seconds('Opened at, s'), share, nodes: z.array(nodeName).min(1).max(40) }))
        .max(10_000),
    ),
    powerCuts: optional(
      z.array(z.strictObject({ fromS: seconds('Current off at, s'), toS: seconds('Current back at, s') })).max(1000),
    ),
    watches: optional(
      z.array(z.strictObject({ node: nodeName, limitC: tempC('Limit, °C'), rising: z.boolean() })).max(100),
    ),
  })
  .superRefine((asked, context) => {
    const names = new Set(asked.nodes.map((node) => node.name));
    const known = (name: string, path: (string | number)[], room = false) => {
      if (!names.has(name) && !(room && name === 'room'))
        context.addIssue({ code: 'custom', path, message: say('heat.refrigerator.no-node', { name }) });
    };
    asked.links.forEach(({ from, to }, i) => {
      known(from, ['links', i, 'from'], true);
      known(to, ['links', i, 'to'], true);
    });
    known(asked.compressor.node, ['compressor', 'node']);
    known(asked.thermostat.node, ['thermostat', 'node']);
    asked.doors?.forEach(({ nodes }, i) => {
      nodes.forEach((name, k) => {
        known(name, ['doors', i, 'nodes', k]);
      });
    });
    asked.watches?.forEach(({ node }, i) => {
      known(node, ['watches', i, 'node']);
    });
    if (names.size < asked.nodes.length)
      context.addIssue({ code: 'custom', path: ['nodes'], message: say('heat.refrigerator.same-name') });
    if (asked.spanS / asked.sampleS > 2e6)
      context.addIssue({ code: 'custom', path: ['sampleS'], message: say('heat.refrigerator.too-many-samples') });
  })
  .meta({
    id: 'ExactRefrigerator',
    description: 'A heat network kept cold by a compressor with hysteresis, with exact physical values',
    examples: [
      {
        nodes: [{ name: 'cabinet', heatCapacityJK: 60000 }],
        links: [{ from: 'room', to: 'cabinet', conductanceWK: 1.5 }],
        compressor: { node: 'cabinet', coolingW: 90 },
        thermostat: { node: 'cabinet', onAtC: 6, offAtC: 4 },
        room: { stepS: 3600, temperatureC: [20] },
        initialC: 5,
        spanS: 86400,
        sampleS: 60,
      },
    ],
  }) satisfies z.ZodType<ExactRefrigerator>;
