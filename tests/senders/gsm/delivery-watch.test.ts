import { beforeEach, expect, test } from 'vitest';
import { DeliveryWatch } from '../../../services/senders/gsm/delivery-watch.js';
import type { Outcome, StatusReport } from '../../../services/senders/gsm/pdu-status-report.js';

const report = (reference: number, outcome: Outcome, recipient = '+46701234567'): StatusReport =>
  Object.freeze<StatusReport>({
    type: 'status-report',
    reference,
    recipient,
    sentAt: 1,
    dischargedAt: 2,
    outcome,
    status: 0,
  });

const message = Object.freeze({ key: 'k1', to: '+46701234567', total: 2 });
let watch: DeliveryWatch;
beforeEach(() => {
  watch = new DeliveryWatch();
  watch.add(message, 1, 255);
  watch.add(message, 2, 0);
});

test('delivered when every part is', () => {
  expect(watch.report(report(0, 'delivered'))).toBeUndefined();
  expect(watch.report(report(255, 'delivered'))).toEqual({ key: 'k1', at: 2, ok: true });
});

test('failed as soon as one part is, and only once', () => {
  expect(watch.report(report(255, 'failed'))).toEqual({ key: 'k1', at: 2, ok: false });
  expect(watch.report(report(0, 'failed'))).toBeUndefined();
  expect(watch.report(report(0, 'delivered'))).toBeUndefined();
});

test('while the centre still tries, nothing is certain', () => {
  expect(watch.report(report(255, 'still-trying'))).toBeUndefined();
  watch.report(report(255, 'delivered'));
  expect(watch.report(report(0, 'delivered'))).toMatchObject({ ok: true });
});

test('handed on, nothing will ever be certain', () => {
  expect(watch.report(report(255, 'forwarded'))).toBeUndefined();
  expect(watch.report(report(0, 'delivered'))).toBeUndefined();
});

test('the same report twice counts once', () => {
  watch.report(report(0, 'delivered'));
  expect(watch.report(report(0, 'delivered'))).toBeUndefined();
});

test('a part that was sent again counts once', () => {
  watch.add(message, 2, 1);
  watch.report(report(0, 'delivered'));
  expect(watch.report(report(1, 'delivered'))).toBeUndefined();
  expect(watch.report(report(255, 'delivered'))).toMatchObject({ ok: true });
});

test('the number may be written without its country', () => {
  watch.report(report(0, 'delivered', '0701234567'));
  expect(watch.report(report(255, 'delivered', '46701234567'))).toMatchObject({ ok: true });
});

test('a report about another number or an unknown reference is nothing', () => {
  expect(watch.report(report(255, 'failed', '+46709999999'))).toBeUndefined();
  expect(watch.report(report(17, 'failed'))).toBeUndefined();
});

test('a reference that has come round is of the newer message', () => {
  watch.add({ key: 'k2', to: '+46701234567', total: 1 }, 1, 0);
  expect(watch.report(report(0, 'delivered'))).toMatchObject({ key: 'k2', ok: true });
});
