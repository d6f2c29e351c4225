/** How to answer: what a person can send back, and the sentence that says so. */
import type { AlarmKind } from '../../model/alarm.js';
import type { Finding } from '../../model/inspection.js';
import type { Catalogue } from './catalogue.js';
import { say } from './say.js';

/** Short numbers of alarms, none for the only one that is open. */
export type Numbers = readonly number[];

/** What somebody who opens a bed after an alarm would tell of. Of a probe there is nothing to find in the bed. */
const FINDING: Readonly<Partial<Record<AlarmKind, Finding>>> = {
  heating: 'rot',
  damp: 'damp',
  wetting: 'damp',
  condensation: 'damp',
  sprouting: 'sprouts',
  weevil: 'weevils',
  'inspection-due': 'nothing',
};

/** The finding that an alarm of the kind asks for; undefined for a probe's. */
export const findingFor = (kind: AlarmKind): Finding | undefined => FINDING[kind];

/** `OK 3` */
export const okExample = (catalogue: Catalogue, numbers: Numbers): string =>
  say(catalogue, 'say.ok', { numbers: numbers.join(' ') });

/** `OK ALL` */
export const allExample = (catalogue: Catalogue): string => say(catalogue, 'say.all');

/** `ROT` */
export const findingSaid = (catalogue: Catalogue, finding: Finding): string =>
  say(catalogue, `finding.${finding}`);

/** `FOUND ROT 3` */
export const foundExample = (catalogue: Catalogue, finding: Finding, numbers: Numbers): string =>
  say(catalogue, 'say.found', {
    kind: finding,
    finding: findingSaid(catalogue, finding),
    numbers: numbers.join(' '),
  });

/** `LATER 3 6h` */
export const laterExample = (catalogue: Catalogue, numbers: Numbers, hours: number): string =>
  say(catalogue, 'say.later', { numbers: numbers.join(' '), hours });

/** Sentences that say how to answer, the fullest first. */
export function hintsSaid(catalogue: Catalogue, numbers: Numbers, finding: Finding | undefined): string[] {
  const ok = okExample(catalogue, numbers);
  const short = say(catalogue, 'hint.ok', { ok });
  if (finding === undefined) return [short];
  const found = foundExample(catalogue, finding, numbers);
  return [say(catalogue, 'hint.okOrFound', { ok, found }), short];
}
