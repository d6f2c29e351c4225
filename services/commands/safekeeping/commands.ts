/** What `backup`, `restore` and `check-data` take; what they do is loaded when it is asked for. */
import { JSON_FLAG, type MakeCommand } from '../options.js';

const DATA = ['--data <dir>', 'directory of the database', './data'] as const;

export function addSafekeeping(command: MakeCommand): void {
  command('backup', 'copy the database to one file, also while a service runs on it')
    .requiredOption('--to <file>', 'where the copy goes; a file that is not there yet')
    .option(...DATA)
    .option(...JSON_FLAG)
    .action(async (flags) => (await import('./safekeeping.js')).backup(flags));
  command('restore', 'put a backup in the place of a database; what was there is kept beside it')
    .argument('<file>', 'the backup')
    .requiredOption('--data <dir>', 'directory of the database')
    .option(...JSON_FLAG)
    .action(async (file, flags) => (await import('./safekeeping.js')).restoreFile(file, flags));
  command('check-data', 'whether a database, or a backup, is whole and can be read to its last page')
    .argument('[file]', 'a backup; the database of --data where absent')
    .option(...DATA)
    .option(...JSON_FLAG)
    .action(async (file, flags) => (await import('./safekeeping.js')).checkData(file, flags));
}
