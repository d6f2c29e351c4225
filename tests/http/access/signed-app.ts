/** The HTTP edge over real stores of who may sign in, with a steward and whoever a test asks for. */
import type { InjectOptions } from 'fastify';
import type { HttpOptions } from '../../../services/http/app.js';
import { anAccess, PASSWORD, START } from '../../joining/access/an-access.js';
import { appOver } from '../answers.js';
import { PortsInMemory } from '../ports.js';

export async function signedApp(options: HttpOptions = {}, { isOpenBefore = true } = {}) {
  const opened = anAccess({ isOpenBefore });
  const ports = new PortsInMemory();
  const access = {
    ...opened.ports,
    bedOfAlarm: (id: string) => (id === 'alarm-1' ? 'pit-a' : undefined),
  };
  const app = await appOver(Object.assign(ports, { access }), { now: () => START, ...options });
  const ask = (url: string, headers: Record<string, string> = {}, rest: InjectOptions = {}) =>
    app.inject({ url, headers, ...rest });
  return {
    ...{ ...opened, app, ports, ask },
    /** A change as a page of this service sends it. */
    send: (
      url: string,
      payload: object,
      headers: Record<string, string> = {},
      method: 'POST' | 'PUT' = 'POST',
    ) => app.inject({ method, url, payload, headers: { 'sec-fetch-site': 'same-origin', ...headers } }),
    /** The cookie of somebody who signed in. */
    cookieOf: async (name: string, body: object = {}) => {
      if (name === 'wanja') return { cookie: `sandlarder=${(await opened.steward()).secret}` };
      const signedIn = await opened.somebody(name, body);
      return { cookie: `sandlarder=${signedIn.kind === 'in' ? signedIn.secret : ''}` };
    },
    trail: () => opened.ports.audit(Number.MAX_SAFE_INTEGER, 99),
  };
}

export { PASSWORD };
