/** How a server is started. Everything has a default, so that `startServer({})` serves the usual data folder. */
export interface ServerOptions {
  /** Folder of the database, backups and photographs. Default: `STILLWINTER_DATA`, else `data` in the working folder. */
  readonly dataFolder?: string;
  /** Port; 0 lets the system choose. Default: `STILLWINTER_PORT`, else 8190. */
  readonly port?: number;
  /** Address to listen on. Anything but loopback is refused until a person with a passphrase exists. Default 127.0.0.1. */
  readonly host?: string;
  /** PostgreSQL address. Default: `STILLWINTER_DATABASE_URL`, else SQLite in the data folder. */
  readonly databaseUrl?: string;
  /** Loads the invented demonstration group when the database holds no group yet. Default false. */
  readonly demonstration?: boolean;
  /** Clock, epoch ms: for tests. Default the machine's clock. */
  readonly nowMs?: () => number;
  /** Folder of the built screens. Default `dist/web` of the checkout. */
  readonly webFolder?: string;
}

export interface RunningServer {
  readonly host: string;
  readonly port: number;
  /** `http://127.0.0.1:PORT` */
  readonly address: string;
  /** Answers what is under way, closes the database, then resolves. */
  stop(): Promise<void>;
}

/** Starts the server and resolves once it answers. Prints nothing: whoever started it says so. */
export async function startServer(_options: ServerOptions): Promise<RunningServer> {
  throw new Error('not yet');
}
