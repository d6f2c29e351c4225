/** The HTTP edge over people who are told for real: a station, its plans, answers, links and drills. */
import type { Credentials } from '../../services/http/credentials.js';
import { createPeoplePorts } from '../../services/joining/people-ports.js';
import { type GatewaySettings, readGatewaySettings } from '../../services/senders/index.js';
import { clock, openDuty, SITE } from '../support/duty.js';
import { portsOnStation } from '../support/ports-on-station.js';
import { appOver } from './answers.js';

const TO_SEND = { url: 'http://127.0.0.1:1/', contentType: 'json', body: { to: '<<to>>', text: '<<text>>' } };

export interface PeopleAppOptions {
  readonly receive?: GatewaySettings['receive'];
  /** Whether the service has an address for people. */
  readonly links?: boolean;
  readonly site?: unknown;
  readonly credentials?: Credentials;
}

export async function peopleApp(options: PeopleAppOptions = {}) {
  const { receive, links = true, site = SITE, credentials } = options;
  const duty = openDuty(site, { publicUrl: 'http://127.0.0.1:8080' });
  const { station, now } = duty;
  const telling = { plan: () => void duty.plan(), kick: () => undefined, wake: () => undefined } as never;
  const people = createPeoplePorts({
    ...{ station, telling, now, answers: duty.answers, drills: duty.drills },
    links: links ? duty.links : undefined,
    ways: { has: () => true, answers: () => true },
    gateway: receive && readGatewaySettings({ ...TO_SEND, receive }),
  });
  const ports = portsOnStation(duty, {
    ...{ telling, people, now, startedAt: clock('08:00') },
    catchUp: { kick: () => undefined } as never,
  });
  const reported: unknown[] = [];
  const app = await appOver(ports, {
    ...{ credentials, now },
    report: (error) => void reported.push(error),
  });
  return {
    ...{ duty, app, reported },
    /** An unpack of pit A that Ana was told of, and the path of the link in her message. */
    told: (): { alarm: string; path: string } => {
      const alarm = duty.raise('pit-a');
      duty.plan();
      duty.deliver();
      const url = new URL(duty.fresh()[0]?.body.answerUrl ?? '');
      return { alarm, path: `${url.pathname}${url.search}` };
    },
    /** Looks at all three pits, told of in one message, and the path of its link. */
    bundled: (): { alarms: string[]; path: string } => {
      const damp = { kind: 'damp', action: 'check', priority: 'medium' } as const;
      const alarms = ['pit-a', 'pit-b', 'pit-c'].map((bed) => duty.raise(bed, damp));
      duty.goTo(clock('06:30', 2));
      duty.plan();
      duty.deliver();
      const url = new URL(duty.fresh()[0]?.body.answerUrl ?? '');
      return { alarms, path: `${url.pathname}${url.search}` };
    },
    form: (url: string, payload: string) =>
      app.inject({
        ...{ method: 'POST', url, payload },
        headers: { 'content-type': 'application/x-www-form-urlencoded' },
      }),
    json: (url: string, payload: object) => app.inject({ method: 'POST', url, payload }),
  };
}
