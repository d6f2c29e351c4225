/** CAP 1.2 as a web server gets it from somebody's webhook, from the raising of an alarm to its end. */
import { expect, onTestFinished, test } from 'vitest';
import { wallTimer } from '../../services/senders/index.js';
import { verifySignature } from '../../services/senders/signature.js';
import { createWebhook, WEBHOOK_LIMITS } from '../../services/senders/webhook.js';
import { Receiver } from '../senders/receiver.js';
import { aKeeper, type Duty, openDuty, SITE } from '../support/duty.js';
import { validateCap } from '../support/xmllint.js';

const SECRET = 'a secret of the feed, long enough.';

async function feed(): Promise<{ receiver: Receiver; duty: Duty; send: () => Promise<void> }> {
  const receiver = await Receiver.start();
  onTestFinished(() => receiver.stop());
  const reach = [{ via: 'webhook', to: `${receiver.origin}/cap`, body: 'cap' }];
  const duty = openDuty({ ...SITE, people: [aKeeper('ana', { reach })] }, { hasWay: () => true });
  const webhook = createWebhook(wallTimer, WEBHOOK_LIMITS, { secretOf: () => SECRET });
  const { outbox } = duty.registry;
  const send = async (): Promise<void> => {
    for (const message of outbox.due(Number.MAX_SAFE_INTEGER, 100)) {
      if (message.via === 'webhook') await webhook.send(message);
      outbox.delivered(message.key, duty.now());
    }
  };
  return { receiver, duty, send };
}

test('alert, updates, cancel and drill are valid, typed and signed', async () => {
  const { receiver, duty, send } = await feed();
  const planAndSend = async (minutes: number): Promise<void> => {
    duty.pass(minutes);
    duty.plan();
    await send();
  };
  duty.station.inTransaction(() => duty.drills.start('pit-a', 'Technician'));
  duty.raise('pit-a');
  duty.raise('pit-b');
  await planAndSend(0);
  duty.retell('pit-b', () => []);
  await planAndSend(30);
  await planAndSend(25 * 60);
  duty.clear('pit-a');
  await planAndSend(30);
  const documents = receiver.requests.map(({ body }) => body);
  const typeOf = (xml: string): string => /<msgType>(\w+)</.exec(xml)?.[1] ?? xml;
  expect(documents.map(typeOf)).toEqual(['Alert', 'Alert', 'Alert', 'Cancel', 'Update', 'Update']);
  await validateCap(documents);
  for (const { headers, body } of receiver.requests) {
    expect(headers['content-type']).toBe('application/cap+xml');
    const header = String(headers['sandlarder-signature']);
    expect(verifySignature({ header, body, secret: SECRET, now: Date.now() })).toBe(true);
  }
});
