/** What `access link` and `access audit` take; what they do is loaded when it is asked for. */
import { JSON_FLAG, type MakeCommand } from '../options.js';

const DATA = ['--data <dir>', 'directory of the database', './data'] as const;

export function addAccessCommands(command: MakeCommand): void {
  const access = command(
    'access',
    'who may sign in, and what was changed: for whoever may write in the data directory',
  );
  const part = (name: string, description: string) =>
    access.command(name).description(description).copyInheritedSettings(access);
  part('link', 'a link by which somebody chooses a password; without a steward, that of the first')
    .argument('[name]', 'by which they sign in')
    .option(...DATA)
    .option('--service <url>', 'where the service is reached', 'http://127.0.0.1:8080')
    .action(async (name, flags) => (await import('./access.js')).link(name, flags));
  part('audit', 'what was changed, by whom, from where, and what came of it: the newest first')
    .option(...DATA)
    .option('--limit <n>', 'rows', '50')
    .option(...JSON_FLAG)
    .action(async (flags) => (await import('./access.js')).audit(flags));
}
