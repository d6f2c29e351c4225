/** The frame around every page: its name, the ways through it, and what concerns all of it. */

import type { ComponentChildren } from 'preact';
import { useLocation } from 'preact-iso';
import { HeadLine } from './access/head-line.js';
import { useMe } from './access/me.js';
import { useOutbox } from './api/outbox.js';
import { Newer } from './device/newer.js';
import { Away } from './parts/away.js';
import { MadeUp } from './parts/made-up.js';
import { Notice } from './parts/notice.js';
import { SentSince } from './parts/sent.js';
import { isDraft, language } from './words/language.js';
import { say } from './words/say.js';

/** Each way leads to the address that its pages begin with. */
const WAYS = [
  ['/beds', 'app.wayBeds'],
  ['/alarms', 'app.wayAlarms'],
  ['/jobs', 'app.wayWork'],
  ['/bench', 'app.wayBench'],
  ['/settings', 'app.waySettings'],
] as const;

export function Shell({ children }: { children: ComponentChildren }) {
  return (
    <div class="shell">
      <button type="button" class="skip" onClick={skip}>
        {say('app.skip')}
      </button>
      <Head />
      <Away />
      <Told />
      <main id="main" tabIndex={-1}>
        {children}
      </main>
      <footer class="foot">{say('app.foot')}</footer>
    </div>
  );
}

/** A link's fragment the router would take for a page. */
const skip = (): void => document.getElementById('main')?.focus();

function Head() {
  const { path } = useLocation();
  return (
    <header class="head">
      <a class="name" href="/beds">
        {say('app.name')}
      </a>
      {useMe()?.isIn === false ? null : <Ways path={path} />}
    </header>
  );
}

function Ways({ path }: { path: string }) {
  return (
    <nav aria-label={say('app.ways')}>
      <ul class="ways">
        {WAYS.map(([address, word]) => (
          <li key={address}>
            <a href={address} aria-current={isWithin(path, address) ? 'page' : undefined}>
              {say(word)}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

const isWithin = (path: string, address: string): boolean =>
  path === address || path.startsWith(`${address}/`) || (address === '/beds' && path === '/');

/** What is made up, what waits or was sent, and languages nobody has read. */
function Told() {
  return (
    <section class="told" aria-label={say('app.told')}>
      <HeadLine />
      <MadeUp />
      <Newer />
      <SentSince />
      <Waits />
      {isDraft(language()) ? <Notice kind="draft">{say('app.draft')}</Notice> : null}
    </section>
  );
}

function Waits() {
  const records = useOutbox();
  const refused = records.filter(({ refusal }) => refusal !== undefined).length;
  const waiting = records.length - refused;
  if (records.length === 0) return null;
  return (
    <Notice kind={refused > 0 ? 'refusal' : 'plain'}>
      {waiting > 0 ? <p>{say('app.waiting', { count: waiting })}</p> : null}
      {refused > 0 ? <p>{say('app.refused', { count: refused })}</p> : null}
      <p>
        <a href="/jobs/waiting">{say('app.lookAtWaiting')}</a>
      </p>
    </Notice>
  );
}
