/** Subject lines of e-mails, in a person's language. */
import type { AlarmEvent } from '../text.js';
import { catalogueOf } from './languages.js';
import { plainName, say } from './say.js';
import { type BundleItem, bedsOf, type Storm } from './several.js';
import { type NamedBed, type Told, wrongSaid } from './wrong.js';

/** `Pit A: damp sand`; never holds a line break. Throws OUT_OF_DOMAIN for a language that there is not. */
export function eventSubject(
  event: AlarmEvent,
  episode: Told,
  bed: Pick<NamedBed, 'name' | 'timeZone'>,
  language: string,
): string {
  const catalogue = catalogueOf(language);
  const isElsewhere = event === 'refined' && episode.place !== null;
  const key = event === 'refined' && !isElsewhere ? 'subject.raised' : (`subject.${event}` as const);
  return say(catalogue, key, { bed: plainName(bed.name), wrong: wrongSaid(catalogue, episode, bed) });
}

/** `3 beds need a look` */
export const bundleSubject = (items: readonly BundleItem[], language: string): string =>
  say(catalogueOf(language), 'subject.bundle', { beds: bedsOf(items) });

/** `27 alarms in 9 beds` */
export const summarySubject = ({ alarms, beds }: Omit<Storm, 'first'>, language: string): string =>
  say(catalogueOf(language), 'subject.summary', { alarms, beds });

/** `TEST, no alarm: Pit A` */
export const drillSubject = (bed: Pick<NamedBed, 'name'>, language: string): string =>
  say(catalogueOf(language), 'subject.drill', { bed: plainName(bed.name) });
