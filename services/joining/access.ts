/** Who may do what, as the service was started: what is enforced, and nothing that is not. */
import type { AccessParty, AccessView } from '../http/index.js';

export interface AccessFacts {
  /** Whether user and password are asked for over HTTP. */
  readonly httpCredentials: boolean;
  readonly broker: 'built-in' | 'external';
  /** Whether the built-in broker asks for user and password, or the external one is given them. */
  readonly mqttCredentials: boolean;
  /** Whether messages hold links by which people answer. */
  readonly links: boolean;
  /** Whether short messages come back: by a modem, or by a gateway that hands them over. */
  readonly shortMessages: boolean;
  readonly gateway: boolean;
}

const NOTES = [
  'There are no roles: whoever may ask may also change.',
  'Names under records and changes are taken on trust: nobody has to prove who they are.',
  'Nothing is deleted by a change: what stood before, and by which name it was changed, is kept.',
] as const;

export function accessOf(facts: AccessFacts): AccessView {
  return {
    asksForCredentials: facts.httpCredentials,
    notes: NOTES,
    parties: [service(facts), shortMessages(facts), links(facts), gateway(facts), probes(facts), MACHINE],
  };
}

const service = ({ httpCredentials }: AccessFacts): AccessParty => ({
  ...{ id: 'service', isOpen: true },
  who: httpCredentials
    ? 'Whoever knows the user and the password of the service'
    : 'Whoever works at the machine on which the service runs, and each program there',
  proof: httpCredentials
    ? 'One user and one password for all, sent with each request'
    : 'None: requests are taken from this machine alone',
  may: [
    'see everything',
    'write down fillings, looks, stock, sand and readiness',
    'acknowledge alarms and silence them for up to three days',
    'calibrate probes',
    'change the site, beds, probes, people and thresholds',
    'send a test to the people of a bed',
  ],
  mayNot: ['delete readings or records', 'change what was written down: it is corrected by another record'],
});

const shortMessages = ({ shortMessages: isOpen }: AccessFacts): AccessParty => ({
  ...{ id: 'short-messages', isOpen },
  who: 'Whoever sends a short message from a number that the site description gives a person',
  proof: 'The number of the sender, which a network may let somebody forge',
  may: [
    'say that an alarm they were told of was seen',
    'say what was found in its bed',
    'silence it for up to three days',
    'stop messages to their number',
  ],
  mayNot: ['see anything else', 'change the site, beds, probes, people or thresholds'],
});

const links = ({ links: isOpen }: AccessFacts): AccessParty => ({
  ...{ id: 'links', isOpen },
  who: 'Whoever has the link of an e-mail or a web message',
  proof: 'The signature in the link, which holds for a week; it takes one answer to each alarm',
  may: [
    'see the alarms of that message',
    'say that they were seen',
    'say what was found',
    'silence them for up to three days',
  ],
  mayNot: ['see anything else', 'change the site, beds, probes, people or thresholds'],
});

const gateway = ({ gateway: isOpen, httpCredentials }: AccessFacts): AccessParty => ({
  ...{ id: 'gateway', isOpen },
  who: 'The gateway that hands short messages over',
  proof: httpCredentials ? 'User and password of the service' : 'None: it must run on this machine',
  may: ['bring a message in the name of any number'],
  mayNot: ['more than that number may'],
});

const probes = ({ broker, mqttCredentials }: AccessFacts): AccessParty => ({
  ...{ id: 'probes', isOpen: true },
  who:
    broker === 'external'
      ? 'Whoever the broker at which probes publish lets in'
      : mqttCredentials
        ? 'Whoever knows the user and the password of the broker'
        : 'Whoever reaches the broker from this machine',
  proof:
    broker === 'external'
      ? 'What that broker asks for'
      : mqttCredentials
        ? 'One user and one password for all probes'
        : 'None: it listens to this machine alone',
  may: [
    'publish readings in the name of any probe',
    'hear what is published: readings, and which beds have alarms',
  ],
  mayNot: ['change readings that are kept', 'change the site, beds, probes, people or thresholds'],
});

const MACHINE: AccessParty = {
  ...{ id: 'machine', isOpen: true },
  who: 'Whoever may write in the data folder on the machine',
  proof: 'The account on that machine',
  may: ['everything: load site files, read, copy and remove the data'],
  mayNot: [],
};
