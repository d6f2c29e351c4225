/** What the commands of keeping a bed take; what they do is loaded when it is asked for. */
import type { Command } from 'commander';
import { JSON_FLAG, type MakeCommand, SERVICE, TOKEN_FILE } from '../options.js';

/** Adds the commands of keeping a bed. */
export function addKeeping(command: MakeCommand): void {
  addSand(command);
  addReady(command);
  addOutlook(command);
  addSeason(command);
  addPower(command);
}

const withSamples = (part: Command): Command =>
  part
    .option(
      '--sieve <opening:grams...>',
      'what lay on a sieve: 0.5:220 by its opening in mm, no35:220 by its number',
    )
    .option('--pan <g>', 'what fell through all of them, g')
    .option('--sieves <file>', 'instead: a CSV file with columns sieve (opening, no35 or pan) and retained_g')
    .option('--sample <g>', 'the whole sample before it was sieved, g')
    .option('--wet <g>', 'a moist sample with its container, g')
    .option('--dry <g...>', 'the same dried, g; of several weighings one after the other the last counts')
    .option('--container <g>', 'the empty container, g')
    .option('--balance-step <g>', 'least step that the balance shows, g; 0.1 where absent')
    .option('--way <way>', 'how it was dried: pan (on a fire) or oven (110 °C); pan where absent')
    .option('--sand-temperature <degrees>', 'of the sand a hand’s breadth deep, °C');

function addSand(command: MakeCommand): void {
  withSamples(
    command('sand', 'whether a sand is fit to keep roots in: grains, water, warmth; needs no service'),
  )
    .option('--shade <degrees>', 'mean of the shade over a day, °C')
    .option('--layer <cm>', 'how thick the sand lies spread out, cm; 10 where absent')
    .option('--block <LxWxH>', 'instead: sides of a heap or a filled bed, cm')
    .option('--bed <id>', 'keep it as a record of this bed, at a running service')
    .option('--by <name>', 'who measured it, where it is kept')
    .option(...SERVICE)
    .option(...TOKEN_FILE)
    .option(...JSON_FLAG)
    .action(async (flags) => (await import('./sand.js')).sand(flags));
}

function addReady(command: MakeCommand): void {
  withSamples(
    command('ready', 'whether a bed may be filled: shows the list, takes answers, keeps who said so'),
  )
    .argument('<bed>', 'id of the bed')
    .option(
      '--yes <item...>',
      'answer yes: wounds-healed, roots-cooled, roof, ditch, poles, sand-grains, rodents',
    )
    .option('--not <item...>', 'answer no, of the same')
    .option('--cured-days <n>', 'how many days the roots were cured')
    .option('--cured-at <degrees>', 'in air of so many °C')
    .option('--cured-humidity <percent>', 'in air of so many %RH')
    .option(
      '--sorted <kinds>',
      'which bad roots were taken out: all, or some of cut,rotten,weevil-tunnelled,frozen',
    )
    .option('--pit-open <days>', 'how many days the pit has stood open and dry')
    .option(
      '--in-sand <probe...>',
      'probes of a pit that lie in sand already; the others lie in the open pit',
    )
    .option('--next-look <time>', 'when somebody looks next: 2026-06-20T06:00:00Z')
    .option('--next-by <name>', 'who')
    .option('--answers <file.json>', 'answers from a file: {"roofOver": true, "curing": {"days": 5}}')
    .option('--by <name>', 'who answers')
    .option('--override <reason>', 'have it filled all the same; the reason stays on record')
    .option('--show', 'show the list, and ask nothing')
    .option(...SERVICE)
    .option(...TOKEN_FILE)
    .option(...JSON_FLAG)
    .action(async (bed, flags) => (await import('./ready.js')).ready(bed, flags));
}

function addOutlook(command: MakeCommand): void {
  command(
    'outlook',
    'what will be left of a bed by month, how long it feeds, whether holding pays at your prices',
  )
    .argument('<bed>', 'id of the bed')
    .option('--months <n>', 'how many months ahead, 1 to 12', '6')
    .option('--persons <n>', 'who eat from it')
    .option('--roots-per-week <n>', 'roots that one person eats in a week')
    .option('--kg-per-week <kg>', 'instead: kg that one person eats in a week')
    .option('--price <money>', 'of a root now, in your money: none is built in')
    .option('--price-kg <money>', 'instead: of a kg')
    .option('--cost <money>', 'what keeping costs a month')
    .option('--interest <percent>', 'what money costs or earns in a month, %')
    .option('--expect <money>', 'price that you expect later, of the same')
    .option(...SERVICE)
    .option(...TOKEN_FILE)
    .option(...JSON_FLAG)
    .action(async (bed, flags) => (await import('./outlook.js')).outlook(bed, flags));
}

function addSeason(command: MakeCommand): void {
  command('season', 'the report of a season, of one bed or of several side by side')
    .argument('<bed...>', 'ids of the beds')
    .option('--to <time>', 'end of the report; that of an earlier season gives its report; now where absent')
    .option('--html <file>', 'write it as a page to print')
    .option('--pdf <file>', 'write it as PDF')
    .option(...SERVICE)
    .option(...TOKEN_FILE)
    .option(...JSON_FLAG)
    .action(async (beds, flags) => (await import('./season.js')).season(beds, flags));
}

function addPower(command: MakeCommand): void {
  command('power', 'how long a probe’s battery lasts and whether a panel keeps it charged; needs no service')
    .requiredOption('--sleep <uA>', 'what it always draws, asleep too, µA')
    .option(
      '--active <mA:s:times...>',
      'what it draws awake: mA, seconds, times a day, such as 20:2.5:144; each thing that it does',
    )
    .requiredOption('--capacity <mAh>', 'of the battery, as printed on it')
    .option('--voltage <V>', 'of the battery; 3.3 where absent; it matters beside --panel')
    .option('--usable <percent>', 'part of the capacity that the circuit can draw; 80 where absent')
    .option('--at-temperature <percent>', 'part of it that is there where it lies; 90 where absent')
    .option('--self-discharge <percent>', 'what it loses by itself in a year; 5 where absent')
    .option('--panel <W>', 'power of a solar panel, with --sun')
    .option('--sun <h>', 'hours of full sun (1000 W/m2) a day on the panel in the poorest month')
    .option('--panel-gives <percent>', 'part of its power after dust, heat and slope; 60 where absent')
    .option('--charges <percent>', 'part of that which the battery gives again; 80 where absent')
    .option(...JSON_FLAG)
    .action(async (flags) => (await import('./power.js')).power(flags));
}
