import { z } from 'zod';
import { idSchema, instantSchema, optional } from './common.ts';

/** What an archive of records holds, told before anything is taken in. */
export const archiveContentsSchema = z
  .strictObject({
    id: idSchema,
    bytes: z.int(),
    exportedAt: instantSchema,
    groupName: optional(z.string()).meta({ description: 'Absent in the history of one animal' }),
    animals: z.array(
      z.strictObject({ id: idSchema, name: z.string(), known: z.boolean().meta({ description: 'Is here already' }) }),
    ),
    records: z.int().meta({ description: 'Entered records, plans and notices' }),
    photographs: z.int(),
    readings: z.int(),
  })
  .meta({
    id: 'ArchiveContents',
    description: 'What an archive of records holds',
    examples: [
      {
        id: '01980d2e-7c00-7000-8000-000000000040',
        bytes: 81_234,
        exportedAt: '2026-10-01T09:30:00.000Z',
        animals: [{ id: '01980d2e-7c00-7000-8000-000000000002', name: 'Sedge', known: false }],
        records: 118,
        photographs: 3,
        readings: 8640,
      },
    ],
  });
export type ArchiveContents = z.infer<typeof archiveContentsSchema>;

export const archiveTakenSchema = z
  .strictObject({
    records: z.int().meta({ description: 'Records that were not here yet' }),
    readings: z.int().meta({ description: 'Readings that were not here yet' }),
    differing: z
      .int()
      .meta({ description: 'Records that are here already and say something else: kept as they are here' }),
  })
  .meta({
    id: 'ArchiveTaken',
    description: 'What was taken in from an archive',
    examples: [{ records: 118, readings: 8640, differing: 0 }],
  });
export type ArchiveTaken = z.infer<typeof archiveTakenSchema>;

export const backupsSchema = z
  .strictObject({
    ownTools: z.boolean().meta({ description: 'True on PostgreSQL, which is backed up with its own tools' }),
    backups: z.array(z.strictObject({ madeAt: instantSchema, bytes: z.int() })).meta({ description: 'Newest first' }),
  })
  .meta({
    id: 'Backups',
    description: 'Backups that lie beside the records',
    examples: [{ ownTools: false, backups: [{ madeAt: '2026-11-25T03:00:00.000Z', bytes: 4_812_800 }] }],
  });
export type Backups = z.infer<typeof backupsSchema>;
