import type { Database } from '../records/database.ts';
import { Arrivals } from './arrivals.ts';
import { type MqttSettings, startMqtt } from './mqtt/client.ts';
import { readWireProbes } from './wire/bus.ts';

export interface IntakeOptions {
  readonly database: Database;
  readonly groupId: string;
  readonly nowMs: () => number;
  readonly mqtt?: MqttSettings;
  /** Folder of the kernel's 1-wire bus, read every `everyMs`. */
  readonly wire?: { readonly folder: string; readonly everyMs: number };
  readonly onError: (error: unknown) => void;
}

export interface Intake {
  /** Whether the broker is connected and where it is listened to, for the screen of the probes; `undefined` when none is set up. */
  readonly broker: { connected: boolean; reason?: string; readonly topic: string } | undefined;
  stop(): Promise<void>;
}

/** Takes readings from the broker and the wire until stopped. */
export function startIntake(options: IntakeOptions): Intake {
  const { database, groupId, nowMs, onError } = options;
  let broker: { connected: boolean; reason?: string; readonly topic: string } | undefined;
  const stops: (() => Promise<void>)[] = [];
  if (options.mqtt) {
    const arrivals = new Arrivals({ database, groupId, source: 'mqtt', nowMs });
    broker = { connected: false, topic: options.mqtt.shape.topic };
    const state = broker;
    const client = startMqtt(
      options.mqtt,
      {
        store: (readings) => arrivals.store(readings),
        refuse: (topic, payload, why) =>
          void arrivals.refuse(topic, Buffer.from(payload).toString('utf8'), why).catch(onError),
        state: (connected, reason) => {
          state.connected = connected;
          if (reason === undefined) delete state.reason;
          else state.reason = reason;
        },
      },
      nowMs,
    );
    stops.push(() => client.stop());
  }
  if (options.wire) {
    const { folder, everyMs } = options.wire;
    const arrivals = new Arrivals({ database, groupId, source: 'wire', nowMs });
    let reading: Promise<void> = Promise.resolve();
    const once = async () => {
      for (const probe of await readWireProbes(folder)) {
        if (probe.reading.kind === 'none')
          await arrivals.refuse(probe.serial, probe.reading.why, `no reading: ${probe.reading.why}`);
        else await arrivals.store([{ probe: probe.serial, atMs: nowMs(), tempC: probe.reading.tempC }]);
      }
    };
    const timer = setInterval(() => {
      reading = reading.then(once).catch(onError);
    }, everyMs);
    reading = once().catch(onError);
    stops.push(async () => {
      clearInterval(timer);
      await reading;
    });
  }
  return {
    broker,
    async stop() {
      for (const stop of stops) await stop();
    },
  };
}
