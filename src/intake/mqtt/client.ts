import mqtt, { type IPublishPacket, type MqttClient } from 'mqtt';
import { type MqttReading, type MqttShape, readMessage, subscriptionOf } from './topics.ts';

export interface MqttSettings {
  /** `mqtt://`, `mqtts://`, `ws://` or `wss://` address of the broker. */
  readonly url: string;
  readonly username?: string;
  readonly password?: string;
  /** Certificate authority to trust, PEM. */
  readonly certificate?: string;
  /** Fixed name of this client: the broker keeps what arrives while the server restarts. */
  readonly clientId: string;
  readonly shape: MqttShape;
  /**
   * How many connections share the work. A client handles one message at a time and acknowledges it once it is stored;
   * several together fill one commit (MQTT 5 shared subscriptions).
   */
  readonly connections?: number;
}

export interface MqttEvents {
  /** Stores readings durably; the messages are acknowledged when it resolves, and come again when it throws. */
  store(readings: readonly MqttReading[]): Promise<unknown>;
  /** A message that was no reading, and why. It is acknowledged: sending it again would not make it better. */
  refuse(topic: string, payload: Uint8Array, why: string): void;
  state(connected: boolean, reason?: string): void;
}

export interface MqttIntake {
  stop(): Promise<void>;
}

/** Waiting messages share one commit: the next commit takes everything that came during the last. */
class GroupCommit {
  private waiting: { reading: MqttReading; done: (error?: Error) => void }[] = [];
  private busy = false;
  private readonly store: MqttEvents['store'];

  constructor(store: MqttEvents['store']) {
    this.store = store;
  }

  add(reading: MqttReading, done: (error?: Error) => void): void {
    this.waiting.push({ reading, done });
    if (!this.busy) void this.run();
  }

  private async run(): Promise<void> {
    this.busy = true;
    // Messages that arrived together on several connections are read in this same turn of the event loop.
    await new Promise((resolve) => setImmediate(resolve));
    while (this.waiting.length > 0) {
      const batch = this.waiting;
      this.waiting = [];
      try {
        await this.store(batch.map((one) => one.reading));
        for (const one of batch) one.done();
      } catch (error) {
        const failure = error instanceof Error ? error : new Error(String(error));
        for (const one of batch) one.done(failure);
      }
    }
    this.busy = false;
  }
}

/**
 * Takes readings from a broker: at least once, acknowledged only when stored. The session is persistent, so that nothing is lost while the
 * server restarts, as far as the broker's own queue reaches. Handlers are attached before connecting, since queued messages come at once.
 */
export function startMqtt(settings: MqttSettings, events: MqttEvents, nowMs: () => number): MqttIntake {
  const commit = new GroupCommit(events.store);
  const filter = subscriptionOf(settings.shape.topic);
  let stopped = false;
  // Shared subscriptions and expiring sessions are MQTT 5; a broker that speaks only 3.1.1 gets one connection.
  let clients = connectAll(5);

  function connectAll(protocolVersion: 4 | 5): MqttClient[] {
    const count = protocolVersion === 5 ? (settings.connections ?? 1) : 1;
    const subscription = count > 1 ? `$share/${settings.clientId}/${filter}` : filter;
    return Array.from({ length: count }, (_, number) =>
      connect(protocolVersion, count > 1 ? `${settings.clientId}-${number}` : settings.clientId, subscription),
    );
  }

  function connect(protocolVersion: 4 | 5, clientId: string, subscription: string): MqttClient {
    const client = mqtt.connect(settings.url, {
      manualConnect: true,
      protocolVersion,
      clientId,
      clean: false,
      ...(protocolVersion === 5 ? { properties: { sessionExpiryInterval: 7 * 86_400, receiveMaximum: 200 } } : {}),
      reconnectPeriod: 2000,
      reconnectOnConnackError: true,
      connectTimeout: 15_000,
      resubscribe: false,
      ...(settings.username === undefined ? {} : { username: settings.username, password: settings.password ?? '' }),
      ...(settings.certificate === undefined ? {} : { ca: settings.certificate }),
    });
    client.handleMessage = (packet, done) => take(packet, done);
    // Subscribing again to a session that is still there changes nothing.
    client.on('connect', () => {
      client.subscribe(subscription, { qos: 1 }, (error) => events.state(!error, error?.message));
    });
    client.on('close', () => events.state(false));
    client.on('error', (error) => {
      if (protocolVersion === 5 && isOldBroker(error) && clients.includes(client)) {
        const old = clients;
        clients = [];
        for (const one of old) one.end(true);
        if (!stopped) clients = connectAll(4);
      } else events.state(false, error.message);
    });
    client.connect();
    return client;
  }

  function take(packet: IPublishPacket, done: (error?: Error) => void): void {
    const payload = typeof packet.payload === 'string' ? Buffer.from(packet.payload) : packet.payload;
    const outcome = readMessage(settings.shape, packet.topic, payload, nowMs());
    if (outcome.kind === 'reading' && !(packet.retain && settings.shape.timePath === undefined)) {
      commit.add(outcome.reading, done);
      return;
    }
    // A retained value of unknown age is no reading of now.
    const why =
      outcome.kind === 'refused'
        ? outcome.why
        : 'the broker had kept the message, and it does not say when it was measured';
    events.refuse(packet.topic, payload, why);
    done();
  }

  return {
    async stop() {
      stopped = true;
      await Promise.all(clients.map((client) => client.endAsync()));
    },
  };
}

/** Return codes with which a broker refuses the version of the protocol (1 in MQTT 3.1.1, 0x84 in MQTT 5). */
const isOldBroker = (error: Error): boolean => [1, 0x84].includes((error as { code?: number }).code ?? 0);
