import { z } from 'zod';
import type { ExactCase } from '../heat/exact.ts';
import { say } from '../wording/say.ts';

const positive = (most: number, description: string) => z.number().gt(0).max(most).meta({ description });

/** Exact physical layer; `simulate --exact` takes what the engineer states and only refuses the impossible. */
export const exactLayerSchema = z.strictObject({
  conductivityWmK: positive(500, 'λ, W/(m K)'),
  densityKgM3: positive(25_000, 'ρ, kg/m³'),
  specificHeatJkgK: positive(20_000, 'c, J/(kg K)'),
  thicknessM: positive(20, 'Thickness, m'),
});

/** Input of `simulate --exact`: a shell around well-mixed contents, with exact physical values. */
export const simulateExactSchema = z
  .strictObject({
    shell: z
      .strictObject({
        areaM2: positive(10_000, 'Area of the shell, m²'),
        layers: z.array(exactLayerSchema).max(30).meta({ description: 'Layers, outside to inside' }),
        outsideResistanceM2KW: z.number().min(0).max(100).meta({ description: 'Film outside, m²K/W' }),
        insideResistanceM2KW: z.number().min(0).max(100).meta({ description: 'Film inside, m²K/W' }),
      })
      .refine((shell) => shell.layers.length > 0 || shell.outsideResistanceM2KW + shell.insideResistanceM2KW > 0, {
        error: () => say('heat.exact.noResistance'),
        path: ['layers'],
      }),
    contents: z
      .array(z.strictObject({ massKg: positive(1e6, 'Mass, kg'), specificHeatJkgK: positive(20_000, 'c, J/(kg K)') }))
      .min(1)
      .max(50),
    heatW: z.number().min(-10_000).max(10_000).meta({ description: 'Steady heat set free inside, W' }),
    outside: z.strictObject({
      stepS: positive(604_800, 'Spacing of the samples, s'),
      temperatureC: z
        .array(z.number().min(-100).max(100))
        .min(2)
        .max(1_000_000)
        .meta({ description: 'Outdoor temperature at each sample, °C, a straight line between' }),
    }),
    initialC: z.number().min(-100).max(100).meta({ description: 'Temperature of shell and contents at the start, °C' }),
  })
  .meta({
    id: 'SimulateExact',
    description: 'A layered shell around well-mixed contents under an outdoor temperature, with exact physical values',
    examples: [
      {
        shell: {
          areaM2: 0.8,
          layers: [{ conductivityWmK: 0.035, densityKgM3: 20, specificHeatJkgK: 1450, thicknessM: 0.03 }],
          outsideResistanceM2KW: 0.13,
          insideResistanceM2KW: 0.13,
        },
        contents: [{ massKg: 5, specificHeatJkgK: 4190 }],
        heatW: 0,
        outside: { stepS: 3600, temperatureC: [5, 4.5, 4] },
        initialC: 5,
      },
    ],
  }) satisfies z.ZodType<ExactCase>;
