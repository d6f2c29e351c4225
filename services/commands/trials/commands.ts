/** What `sandlarder trial` takes; what its parts do is loaded when it is asked for. */
import type { Command } from 'commander';
import { JSON_FLAG, type MakeCommand } from '../options.js';

/** Adds `trial` with its parts. */
export function addTrials(command: MakeCommand): void {
  const trial = command('trial', 'compare treatments by bed: plan a trial, draw treatments, test, report');
  const part = (name: string, description: string): Command =>
    trial.command(name).description(description).copyInheritedSettings(trial);
  addTest(part);
}

function addTest(part: MakeCommand): void {
  part('test', 'one comparison on a plain table; needs no service')
    .argument('<data.csv>', 'a line a bed, with names of columns first')
    .requiredOption(
      '--design <name>',
      'required: welch (means, unequal scatter), anova (means, equal scatter), blocks (randomised blocks), kruskal (ranks) or survival (what is kept over time)',
    )
    .option('--value <column>', 'column of the number that stands for each bed', 'value')
    .option(...JSON_FLAG)
    .addHelpText(
      'after',
      `
Columns, by name, in any order; others are passed over:
  welch, anova, kruskal  bed, treatment, value
  blocks                 bed, treatment, value, block
  survival               bed, treatment, time, lost (yes or no); if need be roots (how many, else 1) and block;
                         time is that of the look at which they were found lost, or were last seen sound
A bed has one line, but for survival: readings of a bed are not beds. Separated by commas, or semicolons; numbers have a
decimal point.`,
    )
    .action(async (file, flags) => (await import('./test.js')).test(file, flags));
}
