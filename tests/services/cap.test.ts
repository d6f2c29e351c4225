/** What is written as CAP, read by an XML parser that others wrote (xmllint, of libxml2) and held against a grammar. */
import { expect, test } from 'vitest';
import { capOf } from '../../services/core/alarms/cap.js';
import { ALARM_EVENTS } from '../../services/core/alarms/text.js';
import { ACTIONS, ALARM_KINDS, PRIORITIES } from '../../services/core/model/alarm.js';
import { aBody, optionsFor, someOptions } from '../core/alarms/a-cap.js';
import { validateCap as validate } from '../support/xmllint.js';

const SCOPES = [
  { type: 'Restricted', restriction: 'Keepers of the store' },
  { type: 'Private', addresses: ['keeper@ridge.example', 'night watch'] },
] as const;

test.each(ALARM_EVENTS)('%s: every kind, action, priority and scope is valid', async (event) => {
  const documents = ALARM_KINDS.flatMap((kind) =>
    ACTIONS.flatMap((action) =>
      PRIORITIES.flatMap((priority) =>
        SCOPES.map((scope) =>
          capOf(aBody({ kind, action, priority }, { event }), {
            ...optionsFor(event),
            scope,
            contact: 'Keeper',
          }),
        ),
      ),
    ),
  );
  await validate(documents);
});

test('text from outside leaves the document well formed', async () => {
  const everything = Array.from({ length: 0x300 }, (_, code) => String.fromCharCode(code)).join('');
  const nasty = `</headline>]]>&#0;<!--<?x ${everything}\ud800 \udc00 \ufffe\uffff \u{1f954}`;
  const body = aBody(
    { evidence: { [nasty]: nasty } },
    { line: nasty, longText: nasty, text: nasty, subject: nasty, bedName: nasty },
  );
  const scope = { type: 'Restricted', restriction: nasty } as const;
  await validate([capOf(body, someOptions({ siteName: nasty, eventName: nasty, contact: nasty, scope }))]);
});

test.each([
  ['a missing element', / *<event>.*\n/, ''],
  ['a wrong order', /( *<urgency>.*\n)( *<severity>.*\n)/, '$2$1'],
  ['a word that is in no list', 'Severe', 'Grave'],
  ['a time with Z', '-00:00</sent>', 'Z</sent>'],
  ['a day that is none', /<onset>2026-05-24/, '<onset>2026-02-30'],
  ['another namespace', 'cap:1.2', 'cap:1.1'],
  ['a tag that is not closed', '</area>', ''],
] as const)('the check sees %s', async (_what, from, to) => {
  await expect(validate([capOf(aBody(), someOptions()).replace(from, to)])).rejects.toThrow();
});
