import mqtt, { type MqttClient } from 'mqtt';
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
  store(readings: readonly MqttReading[]): Promise<void>;
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
  const count = settings.connections ?? 1;
  const filter = subscriptionOf(settings.shape.topic);
  const subscription = count > 1 ? `$share/${settings.clientId}/${filter}` : filter;
  const clients = Array.from({ length: count }, (_, number) => open(number));

  function open(number: number): MqttClient {
    const client = mqtt.connect(settings.url, {
      manualConnect: true,
      protocolVersion: 5,
      clientId: count > 1 ? `${settings.clientId}-${number}` : settings.clientId,
      clean: false,
      properties: { sessionExpiryInterval: 7 * 86_400, receiveMaximum: 200 },
      reconnectPeriod: 2000,
      reconnectOnConnackError: true,
      connectTimeout: 15_000,
      resubscribe: false,
      ...(settings.username === undefined ? {} : { username: settings.username, password: settings.password ?? '' }),
      ...(settings.certificate === undefined ? {} : { ca: settings.certificate }),
    });
    client.handleMessage = (packet, done) => {
      const payload = typeof packet.payload === 'string' ? Buffer.from(packet.payload) : packet.payload;
      const outcome = readMessage(settings.shape, packet.topic, payload, nowMs());
      if (outcome.kind === 'refused') {
        events.refuse(packet.topic, payload, outcome.why);
        done();
      } else if (packet.retain && settings.shape.timePath === undefined) {
        // A retained value of unknown age is no reading of now.
        events.refuse(
          packet.topic,
          payload,
          'the message was kept by the broker and does not say when it was measured',
        );
        done();
      } else commit.add(outcome.reading, done);
    };
    client.on('connect', (connack) => {
      events.state(true);
      if (!connack.sessionPresent)
        client.subscribe(subscription, { qos: 1 }, (error) => error && events.state(false, error.message));
    });
    client.on('close', () => events.state(false));
    client.on('error', (error) => events.state(false, error.message));
    client.connect();
    return client;
  }

  return {
    async stop() {
      await Promise.all(clients.map((client) => client.endAsync()));
    },
  };
}
