// A server in a process of its own, so that it can be killed: node server-process.ts FOLDER
import module from 'node:module';

module.enableCompileCache();
const { startServer } = await import('../../src/server/start.ts');

const server = await startServer({ dataFolder: process.argv[2]!, port: 0 });
console.log(server.address);
