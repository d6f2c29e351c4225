/** An alarm as a message of the OASIS Common Alerting Protocol 1.2, for whoever gathers warnings of many kinds. */
import type { Place } from '../model/alarm.js';
import { DAY_ms, parseTime } from '../model/time.js';
import {
  CATEGORY,
  certaintyOf,
  EVENT_NAMES,
  MESSAGE_TYPES,
  responseOf,
  severityOf,
  urgencyOf,
} from './cap-codes.js';
import {
  type CapReference,
  type CapScope,
  capIdentifier,
  capTime,
  referenceElements,
  refuse,
  requireName,
  requireWords,
  scopeElements,
} from './cap-fields.js';
import { withDegrees } from './degrees.js';
import type { AlarmDocument } from './document.js';
import type { AlarmEvent } from './text.js';
import { type XmlElement, xmlDocument } from './xml.js';

export { type CapReference, type CapScope, capIdentifier } from './cap-fields.js';

export const CAP_NAMESPACE = 'urn:oasis:names:tc:emergency:cap:1.2';

/** What is told: the body of a message about one alarm. */
export interface CapBody {
  readonly event: AlarmEvent;
  readonly alarm: AlarmDocument;
  readonly bedName: string;
  readonly line: string;
  readonly longText: string;
  /** The short message in the receiver's language. */
  readonly text?: string | undefined;
  readonly subject?: string | undefined;
}

export interface CapOptions {
  /** Unique in the world, such as `alarms@store.example`: no blanks, commas, `<` or `&`. */
  readonly sender: string;
  readonly siteName: string;
  /** BCP 47 tag of the texts of the body. */
  readonly language: string;
  /** `Exercise` for a drill, `Test` for a try of the way itself. */
  readonly status: 'Actual' | 'Exercise' | 'Test';
  readonly scope: CapScope;
  /** When the message is written, ms. A repeat of the same message keeps the time of the first. */
  readonly sentAt: number;
  /** In the place of `capIdentifier`: of a message that is not the same by every way. */
  readonly identifier?: string | undefined;
  /** How often the same event of the same alarm was told before. */
  readonly toldBefore?: number | undefined;
  /** The messages that this one supersedes or takes back: all of the alarm so far. Needed but for `raised`. */
  readonly earlier?: readonly CapReference[] | undefined;
  /** Replaces the English words for the kind of alarm. */
  readonly eventName?: string | undefined;
  readonly expiresAt?: number | undefined;
  /** Whom to ask: a name or a number. */
  readonly contact?: string | undefined;
}

/**
 * How long a message stands, ms: while it lasts as long as the longest time between two looks at a bed (two weeks:
 * common practice, no source), because a message that expires takes the alarm off a display; the news that an
 * alarm is over is old after a day.
 */
const STANDS_ms: Readonly<Record<AlarmEvent, number>> = {
  raised: 14 * DAY_ms,
  refined: 14 * DAY_ms,
  cleared: DAY_ms,
  withdrawn: DAY_ms,
};

const pair = (name: string, valueName: string, value: string): XmlElement => [
  name,
  [
    ['valueName', valueName],
    ['value', value],
  ],
];

/** Centimetres, as in the contract: in words of the bed, not of the earth. */
const placePairs = (place: Place | null): [string, number][] =>
  place === null
    ? []
    : [
        ['place_x_cm', place.x],
        ['place_y_cm', place.y],
        ['place_depth_cm', place.depth],
        ['place_radius_cm', place.radius],
      ];

function parameterElements({ alarm }: CapBody): XmlElement[] {
  const pairs: (readonly [string, string | number])[] = [
    ['alarm', alarm.id],
    ['action', alarm.action],
    ['priority', alarm.priority],
    ...placePairs(alarm.place),
    ...Object.entries(alarm.evidence).map(([name, value]) => [`evidence.${name}`, value] as const),
  ];
  return pairs
    .filter(([, value]) => typeof value === 'string' || Number.isFinite(value))
    .map(([name, value]) => pair('parameter', name, String(value)));
}

const optional = (name: string, text: string | undefined): XmlElement[] =>
  text === undefined ? [] : [[name, requireWords(name, text)]];

/** Elements of `info` in the order of the schema. */
function infoElement(body: CapBody, options: CapOptions): XmlElement {
  const { alarm, event } = body;
  const { language, sentAt, expiresAt = sentAt + STANDS_ms[event] } = options;
  if (!/^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$/.test(language)) refuse('language', 'a BCP 47 tag', language);
  if (!(expiresAt > sentAt)) refuse('expiresAt', `after sentAt ${sentAt}`, expiresAt);
  return [
    'info',
    [
      ['language', language],
      ['category', CATEGORY],
      ['event', requireWords('eventName', options.eventName ?? EVENT_NAMES[alarm.kind])],
      ['responseType', responseOf(event, alarm)],
      ['urgency', urgencyOf(event, alarm)],
      ['severity', severityOf(alarm)],
      ['certainty', certaintyOf(event, alarm)],
      pair('eventCode', 'sandlarder:kind', alarm.kind),
      ['effective', capTime('sentAt', sentAt)],
      ['onset', capTime('raisedAt', parseTime(alarm.raisedAt) ?? Number.NaN)],
      ['expires', capTime('expiresAt', expiresAt)],
      ['senderName', requireWords('siteName', options.siteName)],
      ['headline', requireWords('headline', body.subject ?? body.line)],
      ['description', requireWords('longText', body.longText)],
      ['instruction', withDegrees(requireWords('text', body.text ?? body.line), [body.bedName])],
      ...optional('contact', options.contact),
      ...parameterElements(body),
      ['area', [['areaDesc', requireWords('bedName', `${options.siteName}: ${body.bedName}`)]]],
    ],
  ];
}

const identifierOf = ({ alarm, event }: CapBody, { identifier, toldBefore }: CapOptions): string =>
  identifier === undefined
    ? capIdentifier(alarm.id, event, toldBefore)
    : requireName('identifier', identifier);

/**
 * Writes an event of an alarm as CAP 1.2: an `Alert` at its raising, an `Update` where it is better known or over,
 * a `Cancel` where it is taken back. Equal arguments give equal text.
 *
 * The area is the bed in words: there is no position on the earth, and where to dig is in the parameters. A signed
 * link to answer with is left out: such messages are passed on, and who holds the link answers as its owner.
 *
 * @returns XML 1.0 text, UTF-8
 * @throws SandlarderError OUT_OF_DOMAIN for a name, time or scope that the specification does not allow, and for
 *   an event after the raising that refers to no earlier message
 */
export function capOf(body: CapBody, options: CapOptions): string {
  const { event } = body;
  const alert: XmlElement = [
    'alert',
    [
      ['identifier', identifierOf(body, options)],
      ['sender', requireName('sender', options.sender)],
      ['sent', capTime('sentAt', options.sentAt)],
      ['status', options.status],
      ['msgType', MESSAGE_TYPES[event]],
      ...scopeElements(options.scope),
      ...referenceElements(event, options.sender, options.earlier),
      infoElement(body, options),
    ],
  ];
  return xmlDocument(alert, CAP_NAMESPACE);
}
