/** What `sandlarder export` takes; what it does is loaded when it is asked for. */
import { JSON_FLAG, type MakeCommand } from '../options.js';

export function addExport(command: MakeCommand): void {
  command('export', 'write readings into a folder, as CSV or Parquet with all that belongs to them')
    .requiredOption('--out <folder>', 'required: where the files go')
    .option('--bed <id>', 'one of four: a bed')
    .option('--beds <id,...>', 'one of four: beds')
    .option('--site <id>', 'one of four: all of a site, with its shade')
    .option('--trial <id>', 'one of four: the beds of a trial')
    .option('--from <time>', 'measured at this time or later, RFC 3339; from the first reading where absent')
    .option('--to <time>', 'measured before this time; to the last reading where absent')
    .option('--format <format>', 'csv or parquet', 'csv')
    .option('--shade', 'with what was measured in the shade outside')
    .option('--no-shade', 'without it, also of a site')
    .option('--quantities <name,...>', 'temperature, humidity, battery, charge; the first two where absent')
    .option(
      '--influx <url>',
      'the long archive, for readings older than are here one by one; by hours where absent',
    )
    .option('--again', 'write over another export that is in the folder')
    .option('--data <dir>', 'directory of the database', './data')
    .option(...JSON_FLAG)
    .action(async (flags) => (await import('./export.js')).exportReadings(flags));
}
