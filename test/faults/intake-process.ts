// Takes readings from a broker in a process of its own, so that it can be killed: node intake-process.ts FOLDER URL TOPIC
import { startIntake } from '../../src/intake/service.ts';
import { openDatabase } from '../../src/records/database.ts';
import { GROUP } from '../records/given.ts';

const [dataFolder = '', url = '', topic = ''] = process.argv.slice(2);
startIntake({
  database: await openDatabase({ dataFolder }),
  groupId: GROUP.id,
  nowMs: Date.now,
  mqtt: { url, clientId: topic.replaceAll('/', '-'), shape: { topic, payload: '$.c', timePath: '$.t' } },
  onError: (error) => console.error(error),
});
