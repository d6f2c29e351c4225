/** Who may do what: what is enforced now, and nothing that is not. */
import { actionsOf, isAtNamedBeds, ROLES } from '../core/model/roles.js';
import type { AccessParty, AccessStanding, AccessView } from '../http/index.js';

export interface AccessFacts {
  readonly standing: () => AccessStanding;
  /** Whether user and password are asked for over HTTP. */
  readonly httpCredentials: boolean;
  readonly broker: 'built-in' | 'external';
  /** Whether the built-in broker asks for user and password, or the external one is given them. */
  readonly mqttCredentials: boolean;
  /** Whether other machines reach the built-in broker. */
  readonly brokerIsReached: boolean;
  /** Probes and lamps with a secret of their own at the broker. */
  readonly deviceSecrets: () => number;
  /** Whether messages hold links by which people answer. */
  readonly links: boolean;
  /** Whether short messages come back: by a modem, or by a gateway that hands them over. */
  readonly shortMessages: boolean;
  readonly gateway: boolean;
}

const KEPT = 'Nothing is deleted by a change: what stood before, and by which name it was changed, is kept.';
const NAMES = 'Names under records are taken on trust; the audit trail says who was signed in.';

const NOTES: Readonly<Record<AccessStanding, readonly string[]>> = {
  open: [
    'Nobody signs in here yet: whoever works at the machine on which the service runs, and each program there, may do all but look after sign-ins.',
    'As soon as there is a steward, everybody signs in. The link for the first steward is printed when the service starts.',
    KEPT,
  ],
  'first-steward': [
    'Nobody can sign in here yet: only the link for the first steward lets anybody in.',
    KEPT,
  ],
  'sign-in': [NAMES, KEPT],
};

export function accessOf(facts: AccessFacts): AccessView {
  const standing = facts.standing();
  return {
    ...{ standing, asksForCredentials: facts.httpCredentials || standing !== 'open' },
    notes: NOTES[standing],
    roles: ROLES.map((role) => ({
      ...{ role, may: actionsOf(role) },
      atNamedBeds: actionsOf(role).filter((action) => isAtNamedBeds(role, action)),
    })),
    parties: [
      ...(standing === 'open' && !facts.httpCredentials ? [ANYBODY] : []),
      ...(facts.httpCredentials ? [SHARED] : []),
      ...[shortMessages(facts), links(facts), gateway(facts), probes(facts), devices(facts), MACHINE],
    ],
  };
}

const ALL: Pick<AccessParty, 'may' | 'mayNot'> = {
  may: [
    'see everything',
    'write down fillings, looks, stock, sand and readiness',
    'acknowledge alarms and silence them for up to three days',
    'calibrate probes',
    'change the site, beds, probes, people and thresholds',
    'send a test to the people of a bed',
  ],
  mayNot: [
    'delete readings or records',
    'change what was written down: it is corrected by another record',
    'change the audit trail',
  ],
};

const ANYBODY: AccessParty = {
  ...{ id: 'service', isOpen: true, ...ALL },
  who: 'Whoever works at the machine on which the service runs, and each program there',
  proof: 'None: requests are taken from this machine alone',
};

const SHARED: AccessParty = {
  ...{ id: 'service', isOpen: true, ...ALL },
  who: 'Whoever knows the user and the password of the service',
  proof: 'One user and one password, which whoever starts the service chose; they are a steward',
};

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

const gateway = ({ gateway: isOpen, httpCredentials, standing }: AccessFacts): AccessParty => ({
  ...{ id: 'gateway', isOpen },
  who: 'The gateway that hands short messages over',
  proof:
    httpCredentials || standing() !== 'open'
      ? 'A token with the role "gateway", or user and password of the service'
      : 'None: it must run on this machine',
  may: ['bring a message in the name of any number'],
  mayNot: ['more than that number may'],
});

const probes = (facts: AccessFacts): AccessParty => ({
  ...{ id: 'probes', ...publishersOf(facts) },
  isOpen: facts.broker === 'external' || facts.mqttCredentials || !facts.brokerIsReached,
  may: [
    'publish readings in the name of any probe',
    'hear what is published: readings, and which beds have alarms',
  ],
  mayNot: ['change readings that are kept', 'change the site, beds, probes, people or thresholds'],
});

function publishersOf({ broker, mqttCredentials }: AccessFacts): Pick<AccessParty, 'who' | 'proof'> {
  if (broker === 'external')
    return {
      who: 'Whoever the broker at which probes publish lets in',
      proof: 'What that broker asks for',
    };
  return mqttCredentials
    ? {
        who: 'Whoever knows the user and the password of the broker',
        proof: 'One user and one password for all that have no secret of their own',
      }
    : {
        who: 'Whoever reaches the broker from this machine',
        proof: 'None: it listens to this machine alone',
      };
}

const devices = ({ broker, deviceSecrets }: AccessFacts): AccessParty => ({
  ...{ id: 'devices', isOpen: broker === 'built-in' && deviceSecrets() > 0 },
  who: 'A probe or a lamp with a secret of its own',
  proof: 'Its secret, which was shown once and is kept as a hash',
  may: [
    'as a probe: publish its own readings and its own status, and hear those',
    'as a lamp: hear which beds of its site have alarms',
  ],
  mayNot: ['publish in the name of another probe', 'hear what others publish'],
});

const MACHINE: AccessParty = {
  ...{ id: 'machine', isOpen: true },
  who: 'Whoever may write in the data folder on the machine',
  proof: 'The account on that machine',
  may: ['everything: load site files, let people in, read, copy and remove the data'],
  mayNot: [],
};
