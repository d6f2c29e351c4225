/** What the commands of fillings, looks and stock take; what they do is loaded when it is asked for. */
import type { Command } from 'commander';
import { JSON_FLAG, type MakeCommand, SERVICE, TOKEN_FILE } from '../options.js';

const withCommon = (command: Command): Command =>
  command
    .option('--by <name>', 'who did it')
    .option('--at <time>', 'when it was, RFC 3339; now where absent')
    .option('--keep <file>', 'append it to this file where the service is out of reach')
    .option('--from-file <file>', 'instead: send the records of such a file, all or none of each bed')
    .option(...SERVICE)
    .option(...TOKEN_FILE)
    .option(...JSON_FLAG);

/** Adds `fill`, `look` and `stock`. */
export function addLedgerCommands(command: MakeCommand): void {
  addFill(command);
  addLook(command);
  withCommon(command('stock', 'what went in and came out of a bed, and what is left'))
    .argument('[bed]', 'id of the bed')
    .argument('[what]', 'show, in, out or counter', 'show')
    .argument('[rest...]', 'in and out: how many roots; counter: the id of an entry, and how many of it')
    .option(
      '--reason <why>',
      'in: filled, added or put-back (added where absent); out: eaten, sold, seed, fed, thrown or missing; counter: why the entry was wrong',
    )
    .option('--mass <kg>', 'as weighed')
    .option('--persons <n>', 'show: who eat from it, with one of the next two')
    .option('--roots-per-week <n>', 'show: roots that one person eats in a week')
    .option('--kg-per-week <kg>', 'show: kg that one person eats in a week')
    .option('--months <n>', 'show: over so many months the rest is to be sold')
    .action(async (bed, what, rest, flags) => (await import('./stock.js')).stock(bed, what, rest, flags));
}

function addFill(command: MakeCommand): void {
  withCommon(command('fill', 'write down what went into a bed, and where its probes are buried'))
    .argument('[bed]', 'id of the bed')
    .option(
      '--course <roots:kg...>',
      'roots of each course, the lowest first, with their mass where they were weighed: 120:33 110',
    )
    .option('--mass <kg>', 'mass of all roots, where the courses were not weighed')
    .option('--cultivar <name>', 'what they are')
    .option('--field <name>', 'where they grew')
    .option('--lot <name>', 'of which lot')
    .option('--probe <id:x,y,depth...>', 'where each probe is buried, cm: p01:75,40,30')
    .option('--supersedes <filling>', 'take the place of one that was written down wrongly')
    .option('--note <text>', 'what else there is to say')
    .option(
      '--check [filling]',
      'instead: whether its probes lie as deep as said, a day or two after they were buried or moved; those of a filling where one is named',
    )
    .action(async (bed, flags) => (await import('./fill.js')).fill(bed, flags));
}

function addLook(command: MakeCommand): void {
  withCommon(command('look', 'write down what was found in a bed; at a terminal, without flags, it asks'))
    .argument('[bed]', 'id of the bed')
    .option('--due', 'instead: which beds are to be looked into, since when or when, and why')
    .option('--closed', 'the bed was not opened')
    .option('--repacked', 'all roots were taken out, sorted and packed anew')
    .option(
      '--found <what...>',
      'rot, damp, sprouts, weevils or nothing; what follows from the counts where absent',
    )
    .option('--warm <how>', 'a hand in the sand: cool, same, warm or hot')
    .option('--smell <how>', 'fresh, musty or rotten')
    .option('--sand <how>', 'dry, damp or wet')
    .option('--looked <n>', 'roots looked at, those taken out among them')
    .option('--rotten <n>', 'of these: rotten or mouldy')
    .option('--weevil <n>', 'of these: with weevils or their tunnels')
    .option('--rodent <n>', 'of these: gnawed by rats or mice')
    .option('--termite <n>', 'of these: eaten by termites')
    .option('--sprouts-short <n>', 'of these: with sprouts up to 15 mm')
    .option('--sprouts-long <n>', 'of these: with longer sprouts')
    .option(
      '--out <reason:roots:state...>',
      'roots that came out, and how they were where that is known: thrown:2:rotten eaten:10; eaten, sold, seed, fed or thrown; state is sound, sprouted, mouldy, bitter, rotten, weevil or gnawed',
    )
    .option('--photo <file...>', 'pictures: JPEG, PNG or WebP, at most 1 MiB each')
    .option('--did <text>', 'what was done')
    .option('--note <text>', 'what else there is to say')
    .action(async (bed, flags) => (await import('./look.js')).look(bed, flags));
}
