#!/usr/bin/env node
import module from 'node:module';
import { Command, CommanderError } from 'commander';
import { say } from '../wording/say.ts';
import type { CertificateOptions } from './certificate.ts';
import type { ExportOptions } from './export.ts';
import type { ImportOptions } from './import.ts';
import { UsageError } from './outcome.ts';
import type { RecordsOptions } from './records.ts';
import { reportFailure, runCommand } from './run.ts';
import type { ServeOptions } from './serve.ts';

// Each command is loaded only when it is called, so that the first word on the screen comes quickly; what has been
// loaded once is kept compiled by Node.
module.enableCompileCache();

interface Json {
  readonly json?: boolean;
}
const program = new Command('stillwinter')
  .description(say('cli.about'))
  .helpCommand(false)
  .exitOverride()
  .configureOutput({ outputError: () => undefined });

const command = (signature: string, about: string) =>
  program.command(signature).description(about).option('--json', say('cli.option.json'));

command('assess', say('cli.assess.about'))
  .argument('<file>', say('cli.argument.file'))
  .action((file: string, { json = false }: Json) =>
    runCommand(json, async () => (await import('./assess.ts')).assessCommand(file)),
  );

command('plan', say('cli.plan.about'))
  .argument('<file>', say('cli.argument.file'))
  .action((file: string, { json = false }: Json) =>
    runCommand(json, async () => (await import('./plan.ts')).planCommand(file)),
  );

command('simulate', say('cli.simulate.about'))
  .argument('<file>', say('cli.argument.file'))
  .option('--exact', say('cli.simulate.exact'))
  .action((file: string, { json = false, exact = false }: Json & { exact?: boolean }) =>
    runCommand(json, async () =>
      exact
        ? (await import('./simulate-exact.ts')).simulateExactCommand(file)
        : (await import('./simulate.ts')).simulateCommand(file),
    ),
  );

command('calibrate', say('cli.calibrate.about'))
  .argument('<file>', say('cli.argument.file'))
  .action((file: string, { json = false }: Json) =>
    runCommand(json, async () => (await import('./calibrate.ts')).calibrateCommand(file)),
  );

command('replay', say('cli.replay.about'))
  .argument('<file>', say('cli.argument.file'))
  .action((file: string, { json = false }: Json) =>
    runCommand(json, async () => (await import('./replay.ts')).replayCommand(file)),
  );

const onRecords = (signature: string, about: string) =>
  command(signature, about)
    .option('--data <folder>', say('cli.serve.data'))
    .option('--database <address>', say('cli.serve.database'));

onRecords('import', say('cli.import.about'))
  .argument('<file>', say('cli.import.file'))
  .option('--preview', say('cli.import.preview'))
  .option('--zone <zone>', say('cli.import.zone'))
  .option('--probe <name>', say('cli.import.probe'))
  .option('--date-order <order>', say('cli.import.dateOrder'))
  .option('--unit <unit>', say('cli.import.unit'))
  .option('--choices <json>', say('cli.import.choices'))
  .action((file: string, { json = false, ...options }: ImportOptions & Json) =>
    runCommand(json, async () => (await import('./import.ts')).importCommand(file, options)),
  );

onRecords('backup', say('cli.backup.about')).action(({ json = false, ...options }: RecordsOptions & Json) =>
  runCommand(json, async () => (await import('./backup.ts')).backupCommand(options)),
);

onRecords('restore', say('cli.restore.about'))
  .argument('[file]', say('cli.restore.file'))
  .action((file: string | undefined, { json = false, ...options }: RecordsOptions & Json) =>
    runCommand(json, async () => (await import('./restore.ts')).restoreCommand(file, options)),
  );

onRecords('export', say('cli.export.about'))
  .argument('<file>', say('cli.export.file'))
  .option('--animal <id>', say('cli.export.animal'))
  .action((file: string, { json = false, ...options }: ExportOptions & Json) =>
    runCommand(json, async () => (await import('./export.ts')).exportCommand(file, options)),
  );

onRecords('move', say('cli.move.about'))
  .argument('<target>', say('cli.move.target'))
  .action((target: string, { json = false, ...options }: RecordsOptions & Json) =>
    runCommand(json, async () => (await import('./move.ts')).moveCommand(target, options)),
  );

onRecords('take-in', say('cli.takeIn.about'))
  .argument('<file>', say('cli.takeIn.file'))
  .action((file: string, { json = false, ...options }: RecordsOptions & Json) =>
    runCommand(json, async () => (await import('./take-in.ts')).takeInCommand(file, options)),
  );

command('user', say('cli.user.about'))
  .argument('<what>', say('cli.user.what'))
  .argument('[name]', say('cli.user.name'))
  .option('--data <folder>', say('cli.serve.data'))
  .option('--database <address>', say('cli.serve.database'))
  .action((what: string, name: string | undefined, { json = false, ...options }: RecordsOptions & Json) =>
    runCommand(json, async () => (await import('./user.ts')).userCommand(what, name, options)),
  );

command('certificate', say('cli.certificate.about'))
  .option('--data <folder>', say('cli.serve.data'))
  .option('--port <number>', say('cli.certificate.port'))
  .action(({ json = false, ...options }: CertificateOptions & Json) =>
    runCommand(json, async () => (await import('./certificate.ts')).certificateCommand(options)),
  );

command('schema', say('cli.schema.about'))
  .argument('[name]', say('cli.schema.argument'))
  .action((name: string | undefined, { json = false }: Json) =>
    runCommand(json, async () => (await import('./schema.ts')).schemaCommand(name)),
  );

for (const [name, about] of [
  ['serve', say('cli.serve.about')],
  ['demo', say('cli.demo.about')],
] as const)
  command(name, about)
    .option('--data <folder>', say('cli.serve.data'))
    .option('--port <number>', say('cli.serve.portOption'))
    .option('--host <address>', say('cli.serve.host'))
    .option('--database <address>', say('cli.serve.database'))
    .option('--https', say('cli.serve.https'))
    .action(({ json = false, ...options }: ServeOptions & Json) =>
      runCommand(json, async () => (await import('./serve.ts')).serveCommand(options, name === 'demo', json)),
    );

try {
  await program.parseAsync();
} catch (error) {
  if (!(error instanceof CommanderError)) await reportFailure(process.argv.includes('--json'), error);
  // Help that was asked for ends well; help shown because no command was given does not.
  else if (error.exitCode === 0) process.exitCode = 0;
  else if (error.code === 'commander.help') process.exitCode = 2;
  else {
    const sentence = error.message.replace(/^error: (.)/, (_, first: string) => first.toUpperCase());
    await reportFailure(process.argv.includes('--json'), new UsageError(`${sentence}.\n${say('cli.usage.help')}`));
  }
}
