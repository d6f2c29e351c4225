/** What `sandlarder import` takes; what it does is loaded when it is asked for. */
import { JSON_FLAG, type MakeCommand } from '../options.js';

export function addImport(command: MakeCommand): void {
  command('import', 'take in readings of a CSV table: loggers without radio, old spreadsheets')
    .argument('<file.csv>', 'the table; separated by comma, semicolon or tab')
    .option('--map <map.json>', 'what its columns mean; or, for a simple table, by the flags below')
    .option('--dry-run', 'show what was understood, and write nothing')
    .option('--data <dir>', 'directory of the database', './data')
    .option('--refused <file>', 'where refused lines go; FILE.csv.refused.csv where absent')
    .option('--again', 'go through a file once more that is in already')
    .option('--site <id>', 'site of its probes')
    .option('--time <column...>', 'column of the time, or those of date and clock')
    .option(
      '--time-format <format>',
      'iso, epoch-s, epoch-ms, or a pattern such as "dd/MM/yyyy HH:mm"; iso where absent',
    )
    .option('--zone <zone>', 'time zone of its clock, such as Africa/Lusaka, or an offset such as +02:00')
    .option(
      '--repeated <how>',
      'times that a change of the clocks gives twice: refuse, earlier or later; refuse where absent',
    )
    .option(
      '--skipped <how>',
      'times that it leaves out: refuse, or by the offset of before or after; refuse where absent',
    )
    .option(
      '--value <column=quantity:unit...>',
      'such as "Temp=temperature:°C"; with :PROBE where each probe has its columns',
    )
    .option('--probe <id>', 'the probe of the whole table')
    .option('--probe-column <column>', 'column of the ids of probes')
    .option('--separator <s>', ', or ; or tab; found by the header where absent')
    .option('--decimal <c>', '. or ,; a point where absent')
    .option('--encoding <name>', 'utf-8 or latin1; utf-8 where absent')
    .option('--skip <n>', 'lines before the header')
    .option('--no-header', 'columns have no names: #1, #2 and so on')
    .option('--missing <text...>', 'what stands where nothing was measured, besides nothing')
    .option(...JSON_FLAG)
    .action(async (file, flags) =>
      (await import('./import.js')).importFile(file, flags.header ? { ...flags, header: undefined } : flags),
    );
}
