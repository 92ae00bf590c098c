import mqtt, { type IPublishPacket, type MqttClient } from 'mqtt';
import { Repeats } from '../bthome/repeats.ts';
import { GroupCommit } from './commit.ts';
import { type MqttOutcome, type MqttReading, type MqttShape, readMessage, subscriptionOf } from './topics.ts';

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
}

export interface MqttEvents {
  /** Stores readings durably; the messages are acknowledged when it resolves. When it throws, the same readings come again after a while. */
  store(readings: readonly MqttReading[]): Promise<unknown>;
  /** A message that was no reading, and why. It is acknowledged: sending it again would not make it better. */
  refuse(topic: string, payload: Uint8Array, why: string): void;
  state(connected: boolean, reason?: string): void;
}

export interface MqttIntake {
  stop(): Promise<void>;
}

/** Messages that the broker may send before the first of them is acknowledged (the Receive Maximum of MQTT 5). */
const RECEIVE_MAXIMUM = 1000;
/** A broker that sends more than that is read no further until a commit has made room. */
const MOST_WAITING = 4000;

/**
 * Takes readings from a broker: at least once, acknowledged only when stored. The session is persistent, so that nothing is lost while the
 * server restarts, as far as the broker's own queue reaches. Handlers are attached before connecting, since queued messages come at once.
 */
export function startMqtt(settings: MqttSettings, events: MqttEvents, nowMs: () => number): MqttIntake {
  let held: (() => void)[] = [];
  let acknowledged: Acknowledgement[] = [];
  const commit = new GroupCommit(
    events.store,
    (error) => events.state(client.connected, error && `readings could not be stored and wait: ${error.message}`),
    () => {
      const done = acknowledged;
      acknowledged = [];
      acknowledge(client, done);
      const resumed = held;
      held = [];
      for (const next of resumed) next();
    },
  );
  const repeats = new Repeats();
  const subscription = subscriptionOf(settings.shape.topic);
  let stopped = false;
  // An expiring session and the Receive Maximum are MQTT 5; a broker that speaks only 3.1.1 has limits of its own.
  let client = connect(5);

  function connect(protocolVersion: 4 | 5): MqttClient {
    const made = mqtt.connect(settings.url, {
      manualConnect: true,
      protocolVersion,
      clientId: settings.clientId,
      clean: false,
      ...(protocolVersion === 5
        ? { properties: { sessionExpiryInterval: 7 * 86_400, receiveMaximum: RECEIVE_MAXIMUM } }
        : {}),
      reconnectPeriod: 2000,
      reconnectOnConnackError: true,
      connectTimeout: 15_000,
      resubscribe: false,
      ...(settings.username === undefined ? {} : { username: settings.username, password: settings.password ?? '' }),
      ...(settings.certificate === undefined ? {} : { ca: settings.certificate }),
    });
    made.handleMessage = (packet, done) => take(made, packet, done);
    // Subscribing again to a session that is still there changes nothing.
    made.on('connect', () => {
      made.subscribe(subscription, { qos: 1 }, (error) => events.state(!error, error?.message));
    });
    made.on('close', () => events.state(false));
    made.on('error', (error) => {
      if (protocolVersion === 5 && isOldBroker(error) && client === made) {
        made.end(true);
        if (!stopped) client = connect(4);
      } else events.state(false, error.message);
    });
    made.connect();
    return made;
  }

  function take(from: MqttClient, packet: IPublishPacket, done: (error?: Error) => void): void {
    const payload = typeof packet.payload === 'string' ? Buffer.from(packet.payload) : packet.payload;
    const arrivedMs = nowMs();
    const outcome = firstHeard(readMessage(settings.shape, packet.topic, payload, arrivedMs), arrivedMs);
    if (outcome.kind === 'reading' && !(packet.retain && settings.shape.timePath === undefined)) {
      const { stream } = from;
      commit.add(outcome.reading, () => {
        if (packet.qos > 0 && packet.messageId !== undefined)
          acknowledged.push({ stream, messageId: packet.messageId });
      });
      // The library sends no acknowledgement of its own for a message answered with an error, and goes on to the next.
      const next = () => done(LATER);
      if (commit.size < MOST_WAITING) next();
      else held.push(next);
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

  /** A frame that came before gets the time at which it was first heard, and so is stored once. */
  function firstHeard(outcome: MqttOutcome, arrivedMs: number): MqttOutcome {
    if (outcome.kind !== 'reading' || !outcome.sent) return outcome;
    const atMs = repeats.firstHeardMs(outcome.reading.probe, outcome.sent, arrivedMs);
    return atMs === undefined
      ? { kind: 'refused', why: 'an encrypted frame older than the last one: someone may be playing it back' }
      : { ...outcome, reading: { ...outcome.reading, atMs } };
  }

  return {
    async stop() {
      stopped = true;
      await commit.stop();
      await client.endAsync();
    },
  };
}

const LATER = new Error('acknowledged once it is stored');

/** A stored message, and the line it came over: its number means nothing on another. */
interface Acknowledgement {
  readonly stream: MqttClient['stream'];
  readonly messageId: number;
}

/** Sends the PUBACK packets of one commit in one piece: four bytes each, which in MQTT 5 (3.4) and 3.1.1 mean success. */
function acknowledge(client: MqttClient, stored: readonly Acknowledgement[]): void {
  if (!client.connected) return;
  const here = stored.filter((one) => one.stream === client.stream);
  if (here.length === 0) return;
  const packets = Buffer.alloc(4 * here.length);
  for (const [index, { messageId }] of here.entries()) packets.writeUInt32BE(0x4002_0000 + messageId, 4 * index);
  client.stream.write(packets);
}

/** Return codes with which a broker refuses the version of the protocol (1 in MQTT 3.1.1, 0x84 in MQTT 5). */
const isOldBroker = (error: Error): boolean => [1, 0x84].includes((error as { code?: number }).code ?? 0);
