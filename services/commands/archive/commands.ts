/** What the commands of the long archive take; what they do is loaded when it is asked for. */
import { JSON_FLAG, type MakeCommand } from '../options.js';

/** Adds `archive setup` and `archive copy`. */
export function addArchive(command: MakeCommand): void {
  const archive = command('archive', 'the long archive: years of readings in an InfluxDB');
  const part = (name: string, description: string) =>
    archive.command(name).description(description).copyInheritedSettings(archive);
  part('setup', 'make its database, policies and continuous queries; what is there already stays')
    .requiredOption('--influx <url>', 'where: http://HOST:8086/DATABASE')
    .option('--keep <days>', 'keep readings there for so many days; for ever where absent')
    .option(...JSON_FLAG)
    .action(async (flags) => (await import('./setup.js')).setup(flags));
  part('copy', 'copy history between a data directory and an InfluxDB; ended in the middle it goes on')
    .requiredOption('--from <where>', 'a data directory, or http://HOST:8086/DATABASE')
    .requiredOption('--to <where>', 'the other of the two')
    .option(...JSON_FLAG)
    .action(async (flags) => (await import('./copy.js')).copy(flags));
}
