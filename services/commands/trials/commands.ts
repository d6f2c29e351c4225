/** What `sandlarder trial` takes; what its parts do is loaded when it is asked for. */
import type { Command } from 'commander';
import { JSON_FLAG, type MakeCommand, SERVICE, TOKEN_FILE } from '../options.js';

const records = () => import('./records.js');

/** Adds `trial` with its parts. */
export function addTrials(command: MakeCommand): void {
  const trial = command('trial', 'compare treatments by bed: plan a trial, draw treatments, test, report');
  const part = (name: string, description: string): Command =>
    trial.command(name).description(description).copyInheritedSettings(trial);
  addPower(part);
  addNew(part);
  addCorrect(part);
  const asking = (name: string, description: string): Command =>
    part(name, description)
      .option(...SERVICE)
      .option(...TOKEN_FILE)
      .option(...JSON_FLAG);
  asking('assign', 'draw by chance which bed gets which treatment, once; the seed is kept')
    .argument('<trial>', 'id of the trial')
    .requiredOption('--by <name>', 'required: who draws')
    .option('--at <time>', 'when, RFC 3339; now where absent')
    .option('--seed <n>', 'whole number from 0 to 999999999; drawn where absent')
    .action(async (trial, flags) => (await records()).assignTrial(trial, flags));
  asking('list', 'trials as they stand').action(async (flags) => (await records()).listTrials(flags));
  asking('beds', 'the beds of a trial with their treatments')
    .argument('<trial>', 'id of the trial')
    .action(async (trial, flags) => (await records()).showBeds(trial, flags));
  asking('report', 'what a trial has come to by now')
    .argument('<trial>', 'id of the trial')
    .option('--html <file>', 'write the report as a page to print')
    .option('--pdf <file>', 'write it as PDF')
    .option('--csv <file>', 'write the table of beds, as trial test reads it')
    .option('--roots-csv <file>', 'write what became of roots, as trial test --design survival reads it')
    .action(async (trial, flags) => (await import('./report.js')).report(trial, flags));
  addTest(part);
}

function addPower(part: MakeCommand): void {
  part('power', 'how many beds find a difference worth having; needs no service')
    .requiredOption('--difference <x>', 'required: the difference worth having, in the unit of the outcome')
    .requiredOption('--sd <x>', 'required: how beds of one treatment scatter, standard deviation, same unit')
    .option('--treatments <n>', 'how many treatments, 2 to 20', '2')
    .option('--design <name>', 'complete, or blocks (one bed of each in each block)', 'complete')
    .option('--power <share>', 'chance to find it, 0.5 to 0.999', '0.8')
    .option('--alpha <share>', 'chance to cry wolf', '0.05')
    .option('--beds <n>', 'instead: what so many beds of each treatment would find')
    .option(...JSON_FLAG)
    .action(async (flags) => (await import('./power.js')).power(flags));
}

const BEDS = 'BED, BED=BLOCK; with a treatment given by hand BED:TREATMENT, BED=BLOCK:TREATMENT';
const DESCRIBED = 'what is done to the beds of a treatment: TREATMENT=TEXT';
const OUTCOMES =
  'loss (share of roots lost), first-rot (days until rot is found), sound-mass, highest-excess or sprouted';

function addNew(part: MakeCommand): void {
  part('new', 'write down a trial: its beds, treatments, and the number that will stand for a bed')
    .argument('<trial>', 'id of the trial: a-z, 0-9 and "-"')
    .requiredOption('--name <text>', 'required: its name')
    .requiredOption('--treatments <name...>', 'required: names of the treatments')
    .option('--described <what...>', DESCRIBED)
    .requiredOption('--beds <bed...>', `required: ${BEDS}`)
    .requiredOption('--outcome <kind>', `required: ${OUTCOMES}`)
    .requiredOption('--day <n>', 'required: by which day from the filling of each bed')
    .requiredOption('--from <time>', 'required: when it begins, 2026-05-04T08:00:00Z')
    .requiredOption('--by <name>', 'required: who writes it down')
    .option('--to <time>', 'when it ends')
    .option('--design <name>', 'complete, or blocks', 'complete')
    .option('--question <text>', 'what is asked')
    .option('--note <text>', 'what else there is to say')
    .option('--at <time>', 'when it is written down; now where absent')
    .option(...SERVICE)
    .option(...TOKEN_FILE)
    .option(...JSON_FLAG)
    .action(async (trial, flags) => (await records()).addTrial(trial, flags));
}

function addCorrect(part: MakeCommand): void {
  part('correct', 'correct a trial: what is not given stays; the earlier version is kept')
    .argument('<trial>', 'id of the trial')
    .requiredOption('--reason <text>', 'required: why')
    .requiredOption('--by <name>', 'required: who corrects it')
    .option('--name <text>', 'its name')
    .option('--treatments <name...>', 'names of the treatments')
    .option('--described <what...>', DESCRIBED)
    .option('--beds <bed...>', BEDS)
    .option('--outcome <kind>', OUTCOMES)
    .option('--day <n>', 'by which day from the filling of each bed')
    .option('--from <time>', 'when it begins')
    .option('--to <time>', 'when it ends')
    .option('--design <name>', 'complete, or blocks')
    .option('--question <text>', 'what is asked')
    .option('--note <text>', 'what else there is to say')
    .option('--at <time>', 'when it is written down; now where absent')
    .option(...SERVICE)
    .option(...TOKEN_FILE)
    .option(...JSON_FLAG)
    .action(async (trial, flags) => (await records()).correctTrial(trial, flags));
}

function addTest(part: MakeCommand): void {
  part('test', 'one comparison on a plain table; needs no service')
    .argument('<data.csv>', 'a line a bed, with names of columns first')
    .requiredOption(
      '--design <name>',
      'required: welch (means, unequal scatter), anova (means, equal scatter), blocks (randomised blocks), kruskal (ranks) or survival (what is kept over time)',
    )
    .option('--value <column>', 'column of the number that stands for each bed', 'value')
    .option('--factors <column,...>', 'with blocks: two or more things varied together, instead of treatment')
    .option(...JSON_FLAG)
    .addHelpText(
      'after',
      `
Columns, by name, in any order; others are passed over:
  welch, anova, kruskal  bed, treatment, value
  blocks                 bed, treatment, value, block; with --factors a column for each instead of treatment
  survival               bed, treatment, time, lost (yes or no); if need be roots (how many, else 1) and block;
                         time is that of the look at which they were found lost, or were last seen sound
A bed has one line, but for survival: readings of a bed are not beds. Separated by commas, or semicolons; numbers have a
decimal point.`,
    )
    .action(async (file, flags) => (await import('./test.js')).test(file, flags));
}
