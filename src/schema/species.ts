import { z } from 'zod';
import { findSpecies, nearestSpecies } from '../tortoise/species.ts';
import { say } from '../wording/say.ts';

/** A name of the species table, with the nearest names offered for a misspelt one. */
export const speciesSchema = z
  .string()
  .max(80)
  .superRefine((name, ctx) => {
    if (findSpecies(name)) return;
    const near = nearestSpecies(name);
    ctx.addIssue({
      code: 'custom',
      message:
        near.length > 0
          ? say('tortoise.input.speciesNear', { name, near: near.join(', ') })
          : say('tortoise.input.species', { name }),
    });
  })
  .meta({
    description: 'Scientific name of the species table, "unknown" or "hybrid"; both of these stay awake',
    examples: ['Testudo hermanni boettgeri'],
  });
