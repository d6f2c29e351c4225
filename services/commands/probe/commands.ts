/** What `sandlarder probe` takes; what its parts do is loaded when it is asked for. */
import { JSON_FLAG, type MakeCommand } from '../options.js';

const DATA = ['--data <dir>', 'directory of the database', './data'] as const;
const SITE = ['--site <id>', 'their site; needed where there are several'] as const;
const LAMP = ['--lamp', 'they are names of lamps or buzzers, which hear alarms and say nothing'] as const;

const secrets = () => import('./secrets.js');

export function addProbe(command: MakeCommand): void {
  const probe = command(
    'probe',
    'secrets of probes at the broker: with one, a probe publishes in its own name alone',
  );
  const part = (name: string, description: string) =>
    probe
      .command(name)
      .description(description)
      .copyInheritedSettings(probe)
      .option(...DATA)
      .option(...JSON_FLAG);
  part('secret', 'a secret for each probe, shown this once; it takes the place of one of before')
    .argument('<probe...>', 'ids of the probes')
    .option(...SITE)
    .option(...LAMP)
    .action(async (ids, flags) => (await secrets()).make(ids, flags));
  part('revoke', 'the secrets of these probes hold no more, and their connections end')
    .argument('<probe...>', 'ids of the probes')
    .option(...SITE)
    .option(...LAMP)
    .action(async (ids, flags) => (await secrets()).revoke(ids, flags));
  part('list', 'which probes and lamps have a secret, and since when')
    .option(...SITE)
    .action(async (flags) => (await secrets()).list(flags));
  part('mosquitto', 'write the files by which a Mosquitto holds each probe to its own topics')
    .requiredOption('--to <dir>', 'required: folder for sandlarder.acl and sandlarder.passwords')
    .action(async (flags) => (await import('./mosquitto.js')).mosquitto(flags));
}
