/** A message for a keeper's e-mail, and a way to a mail server of the tests. */
import { expect } from 'vitest';
import { DeliveryError } from '../../services/senders/delivery-error.js';
import { createEmail, type EmailOptions } from '../../services/senders/email.js';
import { aMessage } from './array-outbox.js';
import type { MailServer } from './mail-server.js';
import { ManualTimer } from './manual-timer.js';

export const NOW = Date.parse('2026-05-24T15:00:00Z');
export const TO = 'night-watch@pits.example';
export const FROM = 'Store alarms <alarms@store.example>';
export const PASSWORD = 'p4ss word@:/%';
export const USER = `alarms:${encodeURIComponent(PASSWORD)}`;
export const LINK = 'https://store.example/answer/abc?d=1';

export const BODY = Object.freeze({
  subject: 'Pit A: unpack today',
  line: 'Pit A: sand 1.8 C too warm.',
  text: 'Pit A: unpack.',
  longText: 'Pit A: sand 1.8 C too warm.\nWhy: é was measured.',
  language: 'en',
  answerUrl: LINK,
});

export const aLetter = (body: unknown = BODY, otherwise: Parameters<typeof aMessage>[0] = {}) =>
  aMessage({ via: 'email', to: TO, body: JSON.stringify(body), createdAt: NOW, ...otherwise });

/** The way to a mail server, which it trusts. */
export const wayTo = (server: MailServer, scheme = 'smtp://', otherwise: Partial<EmailOptions> = {}) =>
  createEmail({
    url: `${scheme}127.0.0.1:${server.port}`,
    from: FROM,
    timer: new ManualTimer(NOW),
    ca: server.certificate.cert,
    ...otherwise,
  });

/** The error with which sending ends: on one line, with no password, address or text in it. */
export async function refusalBy(
  server: MailServer,
  scheme = 'smtp://',
  otherwise: Partial<EmailOptions> = {},
  message = aLetter(),
): Promise<DeliveryError> {
  const error: unknown = await wayTo(server, scheme, otherwise)
    .send(message)
    .then(
      () => undefined,
      (reason) => reason,
    );
  expect(error).toBeInstanceOf(DeliveryError);
  const { message: reason } = error as DeliveryError;
  expect(reason).not.toMatch(/\n/);
  for (const hidden of [PASSWORD, encodeURIComponent(PASSWORD), btoa(PASSWORD), TO, BODY.longText])
    expect(reason).not.toContain(hidden);
  return error as DeliveryError;
}
