import { once } from 'node:events';
import { connect, createServer, type Server, type Socket } from 'node:net';

/** A wire to a server, on a port of its own, that can be cut, hold everything back, and be mended. */
export interface Wire {
  readonly port: number;
  /** Ends every connection and refuses new ones. */
  cut(): Promise<void>;
  /** Keeps connections, and takes new ones, but passes nothing on and tells nobody: a network that swallows everything. */
  stall(): void;
  /** Passes on again what comes from now on; what was held back is lost, as its connections are. */
  mend(): Promise<void>;
}

export async function wireTo(host: string, port: number): Promise<Wire> {
  const sockets = new Set<Socket>();
  let server: Server | undefined;
  let own = 0;
  let stalled = false;
  const kept = (socket: Socket) => {
    sockets.add(socket);
    socket.on('error', () => {});
    socket.on('close', () => sockets.delete(socket));
    return socket;
  };
  const cut = async () => {
    if (!server) return;
    const closing = server;
    server = undefined;
    closing.close();
    for (const socket of sockets) socket.destroy();
    await once(closing, 'close');
  };
  const mend = async () => {
    await cut();
    stalled = false;
    server = createServer((client) => {
      kept(client);
      if (stalled) return;
      const far = kept(connect(port, host));
      // A side that ends takes the other with it, unless the wire is to keep it in the dark.
      client.on('close', () => far.destroy());
      far.on('close', () => stalled || client.destroy());
      client.pipe(far, { end: false }).pipe(client, { end: false });
    }).listen(own, '127.0.0.1');
    await once(server, 'listening');
    own = (server.address() as { port: number }).port;
  };
  await mend();
  return {
    port: own,
    cut,
    mend,
    stall() {
      stalled = true;
      for (const socket of sockets) socket.unpipe().pause();
    },
  };
}
