import type { Api } from '../api.ts';
import type { ServerContext } from '../context.ts';
import { archiveRoutes } from './archives.ts';
import { batchRoutes } from './batch.ts';
import { calendarRoutes } from './calendars.ts';
import { entryRoutes } from './entries.ts';
import { groupRoutes } from './group.ts';
import { importRoutes } from './imports.ts';
import { ingestRoutes } from './ingest.ts';
import { noticeRoutes } from './notices.ts';
import { outsideRoutes } from './outside.ts';
import { paperRoutes } from './papers.ts';
import { photographRoutes } from './photographs.ts';
import { readingRoutes } from './readings.ts';
import { sessionRoutes } from './sessions.ts';
import { shareRoutes } from './shares.ts';
import { trailRoutes } from './trail.ts';
import { weatherRoutes } from './weather.ts';
import { winterRoutes } from './winter.ts';

/** Every route of the API. Adding routes: a file here and a line below. */
export function allRoutes(api: Api, context: ServerContext): void {
  groupRoutes(api, context);
  sessionRoutes(api, context);
  entryRoutes(api, context);
  readingRoutes(api, context);
  importRoutes(api, context);
  ingestRoutes(api, context);
  noticeRoutes(api, context);
  photographRoutes(api, context);
  shareRoutes(api, context);
  trailRoutes(api, context);
  winterRoutes(api, context);
  weatherRoutes(api, context);
  paperRoutes(api, context);
  calendarRoutes(api, context);
  batchRoutes(api, context);
  outsideRoutes(api, context);
  archiveRoutes(api, context);
}
