/** What `sandlarder calibrate` takes; what its parts do is loaded when it is asked for. */
import { type Command, Option } from 'commander';
import { JSON_FLAG, type MakeCommand, SERVICE, TOKEN_FILE } from '../options.js';

const bench = () => import('./bench.js');
const looking = () => import('./look.js');
const finishing = () => import('./finish.js');
const records = () => import('./records.js');

/** Adds `calibrate` with its parts. */
export function addCalibrate(command: MakeCommand): void {
  const calibrate = command(
    'calibrate',
    'keep probes honest: bench work, pairs from a file, field checks, certificates',
  );
  const part = (name: string, description: string): Command =>
    calibrate
      .command(name)
      .description(description)
      .copyInheritedSettings(calibrate)
      .option(...SERVICE)
      .option(...TOKEN_FILE)
      .option(...JSON_FLAG);
  addBenchParts(part);
  addRecordParts(part);
}

const withReference = (part: Command): Command =>
  part
    .requiredOption(
      '--reference <name>',
      'required: the reference instrument by its name; "fixed points" where ice, boiling water and salts are all there is',
    )
    .option('--serial <text>', 'its serial number')
    .option('--calibrated-by <who>', 'who calibrated it')
    .option('--certificate <text>', 'by which certificate')
    .option('--calibrated-on <date>', 'when: 2026-03-01')
    .option('--due-on <date>', 'when it is due again');

const quantity = () => new Option('--quantity <name>', 'temperature or humidity').default('temperature');

const withFit = (part: Command): Command =>
  part
    .option('--from <time>', 'event time from which it holds; when it was done where absent')
    .option('--form <form>', 'offset, linear or quadratic; what the points support where absent')
    .option('--weighting <how>', 'ordinary or weighted')
    .option(
      '--resolution <step>',
      'step in which the probes tell their values; what their readings show where absent',
    )
    .option('--only <probe...>', 'only these probes')
    .option('--leave-out <probe:point:reason...>', 'leave a point of a probe out, and keep the reason')
    .option('--supersedes <probe=calibration...>', 'take the place of a calibration that was entered wrongly')
    .option('--close', 'end the bench, and leave out what is not finished by then');

function addBenchParts(part: MakeCommand): void {
  withReference(part('open', 'begin to calibrate probes together'))
    .argument('<probe...>', 'ids of the probes')
    .requiredOption('--site <id>', 'required: their site')
    .requiredOption('--by <name>', 'required: who does it')
    .addOption(quantity())
    .action(async (probes, flags) => (await bench()).open(probes, flags));
  part('point', 'the probes are in the next bath or jar: say what its reference is')
    .argument('<bench>', 'id of the bench')
    .option('--ice', 'one of four: melting ice')
    .option('--boiling <hPa>', 'one of four: boiling water at this air pressure, not reduced to sea level')
    .option('--salt <id>', 'one of four: over a saturated salt; "calibrate salts" lists them')
    .option('--reading <value>', 'one of four: beside an instrument that shows this')
    .option(
      '--uncertainty <u>',
      'standard uncertainty (k = 1): of the reading, where it is required; of the ice, °C; of the air pressure, hPa',
    )
    .option('--unit <unit>', 'of the reading: Cel, K, %RH or /; that of the quantity where absent')
    .option('--at <C>', 'temperature of the jar, where it is required, or of the chamber, °C')
    .option('--at-uncertainty <C>', 'standard uncertainty of that, °C; 0.3 where absent')
    .option('--apart <C>', 'how much warmer or colder a probe may be than the salt, °C')
    .action(async (id, flags) => (await bench()).point(id, flags));
  part('drop-point', 'take the current point back, as long as nothing was captured at it')
    .argument('<bench>', 'id of the bench')
    .action(async (id, flags) => (await bench()).dropPoint(id, flags));
  part('benches', 'benches that are open')
    .option('--site <id>', 'only of this site')
    .action(async (flags) => (await bench()).benches(flags));
  part('look', 'how the probes settle')
    .argument('<bench>', 'id of the bench')
    .option('--follow', 'again every ten seconds, until all have settled')
    .action(async (id, flags) => (await looking()).look(id, flags));
  part('capture', 'take what the probes show, those that have settled')
    .argument('<bench>', 'id of the bench')
    .argument('[probe...]', 'all of these or none; those that have settled where absent')
    .action(async (id, probes, flags) => (await bench()).capture(id, probes, flags));
  withFit(part('try', 'what would come of it so far; keeps nothing'))
    .argument('<bench>', 'id of the bench')
    .action(async (id, flags) => (await finishing()).tryFits(id, flags));
  withFit(part('finish', 'fit probes and keep the calibrations; the bench stays open for the others'))
    .argument('<bench>', 'id of the bench')
    .action(async (id, flags) => (await finishing()).finish(id, flags));
  part('give-up', 'end bench work of which nothing comes')
    .argument('<bench>', 'id of the bench')
    .argument('<reason>', 'why')
    .action(async (id, reason, flags) => (await bench()).giveUp(id, reason, flags));
  part('salts', 'salts that hold a known humidity, and their cautions').action(async (flags) =>
    (await records()).salts(flags),
  );
}

function addRecordParts(part: MakeCommand): void {
  withReference(part('pairs', 'calibrate from a CSV file of pairs: columns indicated and reference'))
    .argument(
      '<file.csv>',
      'with a header; columns probe, quantity, uncertainty, unit, temperature, time besides',
    )
    .requiredOption('--site <id>', 'required: site of the probes')
    .requiredOption('--by <name>', 'required: who did it')
    .requiredOption('--done <time>', 'required: when it was done, RFC 3339')
    .option('--from <time>', 'event time from which it holds; when it was done where absent')
    .option('--probe <id>', 'where the file has no column of probes')
    .option('--quantity <name>', 'where the file says neither quantity nor unit')
    .option('--uncertainty <u>', 'standard uncertainty (k = 1) of the reference, where the file has none')
    .option('--form <form>', 'offset, linear or quadratic; what the points support where absent')
    .option('--resolution <step>', 'step in which the probes tell their values; not counted where absent')
    .option('--leave-out <probe:line:reason...>', 'leave a line of the file out, and keep the reason')
    .option(
      '--supersedes <calibration>',
      'take the place of one that was entered wrongly; of a file of one probe and quantity',
    )
    .option('--dry-run', 'show what would come of it, and keep nothing')
    .action(async (file, flags) => (await records()).pairs(file, flags));
  part('list', 'calibrations, the newest first')
    .option('--site <id>', 'only of this site')
    .option('--probe <id>', 'only of this probe')
    .option('--quantity <name>', 'only temperature or humidity')
    .option('--in-force', 'only those in force now')
    .option('--long', 'each at length, not in one line')
    .action(async (flags) => (await records()).list(flags));
  part('due', 'when each probe is to be calibrated next').action(async (flags) =>
    (await records()).due(flags),
  );
  part('certificate', 'write a certificate')
    .argument('<calibration>', 'id of the calibration')
    .option('--out <file>', 'file ending in .pdf or .html; ID.pdf where absent')
    .action(async (id, flags) => (await records()).certificate(id, flags));
  part('beside', 'hold a buried probe against a travelling reference that lay beside it for a day')
    .argument('<probe>', 'the buried probe')
    .argument('<reference>', 'the travelling reference, a calibrated probe')
    .requiredOption('--site <id>', 'required: their site')
    .requiredOption('--from <time>', 'required: since when it lay there')
    .requiredOption('--to <time>', 'required: until when; a time that has come')
    .requiredOption('--by <name>', 'required: who does it')
    .addOption(quantity())
    .option('--bound <d>', 'greatest difference that is taken; the tolerance of the site where absent')
    .option(
      '--place-uncertainty <u>',
      'standard uncertainty from the two not lying at one point; 0 where absent',
    )
    .action(async (probe, reference, flags) => (await records()).beside(probe, reference, flags));
}
