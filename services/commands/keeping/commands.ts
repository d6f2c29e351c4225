/** What the commands of keeping a bed take; what they do is loaded when it is asked for. */
import type { Command } from 'commander';

type MakeCommand = (name: string, description: string) => Command;

const SERVICE = ['--service <url>', 'the running service', 'http://127.0.0.1:8080'] as const;
const JSON_FLAG = ['--json', 'print the result as JSON'] as const;

/** Adds the commands of keeping a bed. */
export function addKeeping(command: MakeCommand): void {
  addSand(command);
}

function addSand(command: MakeCommand): void {
  command('sand', 'whether a sand is fit to keep roots in: grains, water, warmth; needs no service')
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
    .option('--sand-temperature <degrees>', 'of the sand a hand’s breadth deep, °C')
    .option('--shade <degrees>', 'mean of the shade over a day, °C')
    .option('--layer <cm>', 'how thick the sand lies spread out, cm; 10 where absent')
    .option('--block <LxWxH>', 'instead: sides of a heap or a filled bed, cm')
    .option('--bed <id>', 'keep it as a record of this bed, at a running service')
    .option('--by <name>', 'who measured it, where it is kept')
    .option(...SERVICE)
    .option(...JSON_FLAG)
    .action(async (flags) => (await import('./sand.js')).sand(flags));
}
