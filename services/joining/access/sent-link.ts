/** A link to sign in by, sent to the telephone or the mailbox that a site description gives a person. */
import { catalogueOf, say } from '../../core/alarms/languages/index.js';
import { formatTime, HOUR_ms, MINUTE_ms } from '../../core/model/time.js';
import type { AskedFrom } from '../../http/index.js';
import type { Registry } from '../../registry/index.js';
import type { AuditDesk } from './audit-desk.js';
import { newId } from './secrets.js';
import { LINK_ms, type SignInDesk } from './sign-in.js';

/** Links to one name within an hour: each costs a message, and somebody else may ask for them. */
const AN_HOUR = 3;

/** Ways that only its owner reads. A webhook is read by a program, a console by whoever is there. */
const VIAS: readonly string[] = ['sms', 'email'];

export interface SentLinkParts {
  readonly registry: Registry;
  readonly desk: SignInDesk;
  readonly audit: AuditDesk;
  /** Where people reach this service; undefined where nobody said. */
  readonly publicUrl: string | undefined;
  readonly hasWay: (via: string) => boolean;
  /** Called once a message waits. */
  readonly onMessage: () => void;
  /** Wall clock, ms. */
  readonly now: () => number;
}

export const canSendLinks = ({ publicUrl, hasWay }: SentLinkParts): boolean =>
  publicUrl !== undefined && VIAS.some(hasWay);

/** Sends one where the name is a person's who can be reached. Whoever asks is told nothing of that. */
export function sendLink(parts: SentLinkParts, name: string, { address }: AskedFrom): void {
  const { registry, desk, audit, publicUrl, hasWay, onMessage, now } = parts;
  const account = registry.access.accounts.get(name);
  if (!account?.person || account.closedAt !== null || publicUrl === undefined) return;
  const { site: siteId, id } = account.person;
  const site = registry.sites.descriptions().find((one) => one.site.id === siteId);
  const person = site?.people.find((one) => one.id === id);
  const stopped = new Set(registry.answers.stopped().map(({ via, to }) => `${via} ${to}`));
  const way = person?.reach.find(
    ({ via, to }) => VIAS.includes(via) && hasWay(via) && !stopped.has(`${via} ${to}`),
  );
  if (!person || !way) return;
  const at = now();
  registry.access.atOnce(() => {
    if (!(registry.access.links.madeSince('sign-in', name, at - HOUR_ms) < AN_HOUR)) return;
    const { secret } = desk.makeLink('sign-in', name);
    const key = `sign-in/${newId()}`;
    const catalogue = catalogueOf(person.language);
    const minutes = LINK_ms['sign-in'] / MINUTE_ms;
    const link = `${publicUrl.replace(/\/$/, '')}/sign-in#${secret}`;
    const text = `${say(catalogue, 'signIn', { minutes })} ${link}`;
    const body = { key, event: 'sign-in', at: formatTime(at), site: siteId, language: person.language };
    const words = { text, line: text, longText: text, subject: say(catalogue, 'subject.signIn') };
    const message = { key, via: way.via, to: way.to, alarm: '', event: 'sign-in' };
    registry.outbox.add([{ ...message, body: JSON.stringify({ ...body, ...words }) }], at);
    audit.note({ who: 'a stranger', how: 'none', address, did: 'send-link', what: name }, `by ${way.via}`);
  });
  onMessage();
}
