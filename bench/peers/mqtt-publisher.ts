import { once } from 'node:events';
import mqtt from 'mqtt';

// Publishes readings of its share of the probes as fast as its parent allows, each acknowledged by the broker. The allowance keeps the
// broker's queue from running over: what a broker drops is no figure of the receiver.
const [url = '', prefix = '', probes = '', each = '', number = '', publishers = ''] = process.argv.slice(2);
const client = await mqtt.connectAsync(url);
const newest = Date.now();
let allowed = 0;
process.on('message', (count: number) => {
  allowed = count;
});
process.send?.('ready');
const sent: Promise<unknown>[] = [];
let published = 0;
for (let at = 0; at < Number(each); at += 1)
  for (let probe = Number(number); probe < Number(probes); probe += Number(publishers)) {
    while (published >= allowed) await once(process, 'message');
    const message = JSON.stringify({ c: 4 + (at % 20) / 10, t: new Date(newest - at * 60_000).toISOString() });
    sent.push(client.publishAsync(`${prefix}/p${probe}/t`, message, { qos: 1 }));
    published += 1;
    if (sent.length === 200) await Promise.all(sent.splice(0));
  }
await Promise.all(sent);
await client.endAsync();
process.disconnect?.();
