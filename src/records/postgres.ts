import pg from 'pg';

const INT8 = 20;
const NUMERIC = 1700;

/** The one place where PostgreSQL's answers are made to look like SQLite's: 64-bit integers and sums come back as numbers. */
const types: pg.CustomTypesConfig = {
  getTypeParser: ((oid: number, format?: 'text' | 'binary') => {
    if (oid === INT8 || oid === NUMERIC) return (text: string) => Number(text);
    return pg.types.getTypeParser(oid, format);
  }) as typeof pg.types.getTypeParser,
};

/** How often an open pool asks whether the server is still there, and how long it waits for that, ms. */
const PULSE_EVERY_MS = 10_000;
const PULSE_WAIT_MS = 5000;

export function openPool(url: string): pg.Pool {
  const pool = new pg.Pool({
    connectionString: url,
    types,
    max: 8,
    connectionTimeoutMillis: 10_000,
    application_name: 'stillwinter',
    options: '-c timezone=UTC',
  });
  // A connection that dies, idle or in use, must not take the process with it: the next query opens another.
  pool.on('error', () => {});
  pool.on('connect', (client) => client.on('error', () => {}));
  letGoOfTheDead(pool, url);
  return pool;
}

/**
 * A network that swallows everything tells nobody: a query on it would wait for a quarter of an hour. While connections are in use a second
 * one asks every 10 s; where it hears nothing they are cut, so that what waits on them fails and is told.
 */
function letGoOfTheDead(pool: pg.Pool, url: string): void {
  const open = new Set<pg.Client>();
  pool.on('connect', (client) => open.add(client as pg.PoolClient & pg.Client));
  pool.on('remove', (client) => open.delete(client as pg.PoolClient & pg.Client));
  let asking = false;
  const timer = setInterval(async () => {
    if (pool.ended) return clearInterval(timer);
    if (asking || pool.totalCount === pool.idleCount) return;
    asking = true;
    if (!(await answers(url))) for (const client of open) client.connection.stream.destroy();
    asking = false;
  }, PULSE_EVERY_MS);
  timer.unref();
}

/** Whether a server is there: one that refuses, because it is full or starting, is. */
async function answers(url: string): Promise<boolean> {
  const client = new pg.Client({
    connectionString: url,
    connectionTimeoutMillis: PULSE_WAIT_MS,
    query_timeout: PULSE_WAIT_MS,
    application_name: 'stillwinter-pulse',
  });
  client.on('error', () => {});
  try {
    await client.connect();
    await client.query('select 1');
    return true;
  } catch (error) {
    return error instanceof pg.DatabaseError;
  } finally {
    client.connection.stream.destroy();
  }
}
