/** Who is told what when an alarm changes: decided here, delivered elsewhere. */
import type { Alarm } from '../model/alarm.js';
import { formatTime } from '../model/time.js';
import { type AlarmDocument, alarmDocument } from './document.js';
import { type AlarmEvent, eventLine, longText, type NamedBed } from './text.js';
import { webhookProblem } from './webhook-url.js';

export interface Occasion {
  readonly alarm: Alarm;
  readonly event: AlarmEvent;
  /** Event time of a place that is better known, ms. */
  readonly at?: number | undefined;
  readonly bed: NamedBed;
  /** IANA name of the site's zone; UTC where null. */
  readonly timeZone: string | null;
  /** URLs that are told of every bed. */
  readonly webhooks: readonly string[];
  /**
   * How often the same event of the same alarm was told before: late readings can withdraw an alarm and later
   * ones establish it again. Goes into the key, so that it is not taken for a repeat.
   */
  readonly toldBefore?: number | undefined;
}

export interface Message {
  /** The same for the same occasion and target, another for any other. */
  readonly key: string;
  readonly via: string;
  readonly to: string;
  /** JSON text of a `MessageBody`. */
  readonly body: string;
}

/** What every way is given. */
export interface MessageBody {
  readonly key: string;
  readonly event: AlarmEvent;
  /** Event time of the event: of a withdrawal, that of what is taken back. */
  readonly at: string;
  readonly alarm: AlarmDocument;
  readonly bedName: string;
  /** One plain line about this event; the alarm's own text at its raising. */
  readonly line: string;
  readonly longText: string;
}

/** A way of reaching somebody that cannot be used, and why. The address is left out: it may hold a secret. */
export interface Unusable {
  readonly who: string;
  readonly via: string;
  readonly reason: string;
}

export interface Telling {
  readonly messages: readonly Message[];
  readonly unusable: readonly Unusable[];
}

interface Target {
  readonly via: string;
  readonly to: string;
  /** Short name in the key. */
  readonly name: string;
}

const targetsOf = ({ webhooks }: Occasion): Target[] =>
  webhooks.map((to, index) => ({ via: 'webhook', to, name: `site.${index}` }));

/** What keeps a way of reaching somebody from being used; undefined where nothing does. */
export function reachProblem({ via, to }: { readonly via: string; readonly to: string }): string | undefined {
  if (via === 'webhook') return webhookProblem(to);
  if (via === 'console' || via === 'sms' || via === 'email') return undefined;
  return `expected via "sms", "email", "webhook" or "console", got ${JSON.stringify(via)}`;
}

/** Where several targets are one address, the first stays. Everybody's console is the one console. */
function distinct(targets: readonly Target[]): Target[] {
  const addresses = new Map<string, Target>();
  for (const target of targets) {
    const address = target.via === 'webhook' ? new URL(target.to).href : target.via;
    if (!addresses.has(address)) addresses.set(address, target);
  }
  return [...addresses.values()];
}

function messageTo({ via, to, name }: Target, occasion: Occasion): Message {
  const { alarm, event, bed, timeZone, toldBefore } = occasion;
  const key = `${alarm.id}/${event}/${via}/${name}${toldBefore ? `/${toldBefore}` : ''}`;
  const body: MessageBody = {
    key,
    event,
    at: formatTime(eventTime(occasion)),
    alarm: alarmDocument(alarm),
    bedName: bed.name,
    line: event === 'raised' ? alarm.text : eventLine(event, alarm, bed),
    longText: longText(event, alarm, bed, timeZone),
  };
  return { key, via, to, body: JSON.stringify(body) };
}

function eventTime({ alarm, event, at }: Occasion): number {
  if (event === 'refined') return at ?? alarm.raisedAt;
  return event === 'cleared' ? (alarm.clearedAt ?? alarm.raisedAt) : alarm.raisedAt;
}

/**
 * Decides which messages go out on every occasion, whoever is on duty: one to the console, one to each webhook of the
 * site. An address that cannot be used is listed with its reason and keeps nobody else from being told.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for an alarm whose place is none
 */
export function tell(occasion: Occasion): Telling {
  const unusable: Unusable[] = [];
  const usable: Target[] = [{ via: 'console', to: 'console', name: 'all' }];
  for (const target of targetsOf(occasion)) {
    const reason = reachProblem(target);
    if (reason === undefined) usable.push(target);
    else unusable.push({ who: target.name, via: target.via, reason });
  }
  return { messages: distinct(usable).map((target) => messageTo(target, occasion)), unusable };
}
