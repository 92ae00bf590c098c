import { type AddressInfo, createServer } from 'node:net';
import { Aedes } from 'aedes';
import mqtt from 'mqtt';

export interface TestBroker {
  readonly url: string;
  readonly name: string;
  stop(): void;
}

/** The broker named by STILLWINTER_TEST_MQTT_URL or the one on this machine where it answers, else one inside this process. */
export async function findBroker(): Promise<TestBroker> {
  const url = process.env.STILLWINTER_TEST_MQTT_URL ?? 'mqtt://127.0.0.1:1883';
  try {
    const probe = await mqtt.connectAsync(url, { connectTimeout: 2000, reconnectPeriod: 0 }, false);
    await probe.endAsync();
    return { url, name: 'a broker of its own', stop: () => undefined };
  } catch {
    const aedes = await Aedes.createBroker();
    const server = createServer(aedes.handle);
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    const stop = () => {
      aedes.close();
      server.close();
    };
    return {
      url: `mqtt://127.0.0.1:${(server.address() as AddressInfo).port}`,
      name: 'a broker in this process',
      stop,
    };
  }
}
