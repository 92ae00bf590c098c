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
  return pool;
}
