/**
 * OASIS Common Alerting Protocol Version 1.2, 1 July 2010: what section 3.2 requires of the messages, and the
 * order and lists of its schema (section 3.4), for every kind, action, priority and event.
 */
import { describe, expect, test } from 'vitest';
import { CAP_NAMESPACE, capOf } from '../../services/core/alarms/cap.js';
import { ALARM_EVENTS } from '../../services/core/alarms/text.js';
import { ACTIONS, ALARM_KINDS, PRIORITIES } from '../../services/core/model/alarm.js';
import { aBody, optionsFor, someOptions } from '../core/alarms/a-cap.js';
import { all, type Read, readCap, textAt } from '../core/alarms/cap-reader.js';

/** Elements in the order of the schema. A `+` is required, a `*` may come several times. */
const ALERT =
  'identifier+ sender+ sent+ status+ msgType+ source scope+ restriction addresses code* note references incidents info*';
const INFO =
  'language category+* event+ responseType* urgency+ severity+ certainty+ audience eventCode* effective onset expires senderName headline description instruction web contact parameter* resource* area*';

const LISTS: Readonly<Record<string, string>> = {
  status: 'Actual Exercise System Test Draft',
  msgType: 'Alert Update Cancel Ack Error',
  scope: 'Public Restricted Private',
  category: 'Geo Met Safety Security Rescue Fire Health Env Transport Infra CBRNE Other',
  responseType: 'Shelter Evacuate Prepare Execute Avoid Monitor Assess AllClear None',
  urgency: 'Immediate Expected Future Past Unknown',
  severity: 'Extreme Severe Moderate Minor Unknown',
  certainty: 'Observed Likely Possible Unlikely Unknown',
};

/** The pattern of the schema for all its times, without the comma that it lets through by mistake. */
const TIME = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[-+]\d\d:\d\d$/;

/** What is wrong with the elements below one, by their names. */
function orderProblems({ name: parent, children }: Read, model: string): string[] {
  const rules = model.split(' ').map((rule) => ({
    name: rule.replace(/[+*]/g, ''),
    required: rule.includes('+'),
    several: rule.includes('*'),
  }));
  const places = children.map(({ name }) => rules.findIndex((rule) => rule.name === name));
  return [
    ...children.filter((_, n) => places[n] === -1).map(({ name }) => `${name} is not in ${parent}`),
    ...children
      .filter((_, n) => n > 0 && (places[n] ?? 0) < (places[n - 1] ?? 0))
      .map(({ name }) => `${name} comes too late in ${parent}`),
    ...rules.flatMap(({ name, required, several }) => {
      const count = children.filter((child) => child.name === name).length;
      if (required && count === 0) return [`${name} is missing in ${parent}`];
      return !several && count > 1 ? [`${name} comes ${count} times in ${parent}`] : [];
    }),
  ];
}

const everyElement = (root: Read): Read[] => [root, ...root.children.flatMap(everyElement)];

function problemsOf(xml: string): string[] {
  const alert = readCap(xml);
  const info = all(alert, 'info')[0] ?? alert;
  const elements = everyElement(alert);
  return [
    ...orderProblems(alert, ALERT),
    ...orderProblems(info, INFO),
    ...elements
      .filter(({ name, text }) => LISTS[name] && !LISTS[name].split(' ').includes(text))
      .map(({ name, text }) => `${text} is not in the list of ${name}`),
    ...elements
      .filter(({ name, text }) => /^(sent|effective|onset|expires)$/.test(name) && !TIME.test(text))
      .map(({ name, text }) => `${name} is ${text}`),
  ];
}

const SCOPES = [
  { type: 'Restricted', restriction: 'Keepers of the store' },
  { type: 'Private', addresses: ['keeper@ridge.example'] },
] as const;

describe.each(ALARM_EVENTS)('%s', (event) => {
  test.each(ALARM_KINDS)('%s', (kind) => {
    for (const action of ACTIONS)
      for (const priority of PRIORITIES)
        for (const scope of SCOPES) {
          const body = aBody({ kind, action, priority }, { event });
          expect(problemsOf(capOf(body, { ...optionsFor(event), scope, contact: 'Keeper' }))).toEqual([]);
        }
  });

  // Section 3.2.1: references with Update and Cancel; addresses with Private, restriction with Restricted.
  test('what depends on the type and on the scope is there', () => {
    for (const scope of SCOPES) {
      const alert = readCap(capOf(aBody({}, { event }), { ...optionsFor(event), scope }));
      expect(textAt(alert, 'references') === undefined).toBe(textAt(alert, 'msgType') === 'Alert');
      expect(textAt(alert, 'addresses') === undefined).toBe(textAt(alert, 'scope') !== 'Private');
      expect(textAt(alert, 'restriction') === undefined).toBe(textAt(alert, 'scope') !== 'Restricted');
    }
  });
});

test('the namespace is that of version 1.2', () => {
  expect(CAP_NAMESPACE).toBe('urn:oasis:names:tc:emergency:cap:1.2');
  expect(capOf(aBody(), someOptions())).toContain(`<alert xmlns="${CAP_NAMESPACE}">`);
});

test.each(['Actual', 'Exercise', 'Test'] as const)('status %s is in the list', (status) => {
  expect(problemsOf(capOf(aBody(), someOptions({ status })))).toEqual([]);
});

test('the check sees what is wrong', () => {
  const xml = capOf(aBody(), someOptions());
  expect(problemsOf(xml.replace(/<event>.*<\/event>/, ''))).toEqual(['event is missing in info']);
  expect(problemsOf(xml.replace(/( *<urgency>.*\n)( *<severity>.*\n)/, '$2$1'))).toEqual([
    'urgency comes too late in info',
  ]);
  expect(problemsOf(xml.replace('Severe', 'severe'))).toEqual(['severe is not in the list of severity']);
  expect(problemsOf(xml.replace(/-00:00<\/sent>/, 'Z</sent>'))).toEqual(['sent is 2026-05-24T15:02:03Z']);
});
