/** The one place that decides whether a request may pass: by who asks, what its address asks for, and at which bed. */
import type { FastifyRequest } from 'fastify';
import { type Action, isAtNamedBeds, may } from '../../core/model/roles.js';
import { hostOfHeader, isLoopback } from '../address.js';
import { CHALLENGE, type Credentials } from '../credentials.js';
import { isLostReader } from '../page.js';
import type { AccessPorts, AccessStanding, Asker } from '../ports-access.js';
import type { ProblemParts } from '../problem.js';
import type { Reach } from './actions.js';
import { originProblem } from './origin.js';
import { ANYONE, type Who, whoAsks } from './who.js';

/** Answered to anyone, under any name of this service: a link carries its own proof, and its page is all that it gives. */
const PROVEN_ADDRESS = '/answer';

/** Without a password of a browser's own window: the page asks. */
const SIGN_IN_CHALLENGE = 'Bearer realm="sandlarder"';

export interface Refused extends ProblemParts {
  /** Sent with 401. */
  readonly challenge?: string;
}

export interface Passed {
  readonly asker: Asker | undefined;
  readonly refused?: Refused;
}

export interface GateParts {
  readonly access: AccessPorts;
  /** User and password of the environment. */
  readonly credentials: Credentials | undefined;
}

export class Gate {
  readonly #access: AccessPorts;
  readonly #credentials: Credentials | undefined;
  readonly #who: Who;

  constructor({ access, credentials }: GateParts) {
    this.#access = access;
    this.#credentials = credentials;
    this.#who = whoAsks(access, credentials);
  }

  /** Whether whoever asked may still ask: a session may have ended since. */
  stillHolds(request: FastifyRequest): boolean {
    return this.pass(request).refused === undefined;
  }

  pass(request: FastifyRequest): Passed {
    const standing = this.#access.standing();
    const reach = isLostReader(request) ? 'page' : request.routeOptions.config.reach;
    if (this.#credentials === undefined && standing === 'open') return passOpen(request, reach);
    const asker = this.#who(request);
    const refused = this.#refusal(request, { standing, reach, asker });
    return refused ? { asker, refused } : { asker };
  }

  #refusal(
    request: FastifyRequest,
    {
      standing,
      reach,
      asker,
    }: { standing: AccessStanding; reach: Reach | undefined; asker: Asker | undefined },
  ): Refused | undefined {
    const isShown =
      reach === 'open' || (reach === 'page' && (standing === 'sign-in' || this.#credentials === undefined));
    if (!asker && !isShown) return this.#unknown(standing);
    if (asker && isAction(reach)) {
      const refused = actionProblem(asker, reach, bedOf(request, this.#access));
      if (refused) return refused;
    }
    return asker?.kind === 'machine' ? undefined : originProblem(request, asker?.session != null);
  }

  #unknown(standing: AccessStanding): Refused {
    const asksBasic = this.#credentials !== undefined && standing !== 'sign-in';
    return {
      ...{ status: 401, code: 'UNAUTHORISED' },
      challenge: asksBasic ? CHALLENGE : SIGN_IN_CHALLENGE,
      detail: asksBasic
        ? 'user and password expected by HTTP Basic'
        : standing === 'first-steward'
          ? 'nobody can sign in here yet: make the first steward by the link that the service printed when it started'
          : 'expected somebody who is signed in, or the token of a machine',
    };
  }
}

const isAction = (reach: Reach | undefined): reach is Action =>
  reach !== undefined && reach !== 'open' && reach !== 'any' && reach !== 'page';

/**
 * Nobody is asked: this machine is trusted, and no page of another site that a browser on it shows. 421 for a Host that
 * is not this machine: a name of somebody else's that was made to point at the loopback (DNS rebinding) would let their
 * page read the answers.
 */
function passOpen(request: FastifyRequest, reach: Reach | undefined): Passed {
  const { headers, routeOptions } = request;
  const host = hostOfHeader(headers.host);
  if (routeOptions.url !== PROVEN_ADDRESS && !(host !== undefined && isLoopback(host)))
    return refusedAs({
      status: 421,
      detail: `as long as nobody is asked to sign in, Host must name this machine (localhost, 127.0.0.1, [::1]), got ${JSON.stringify(headers.host ?? null)}`,
    });
  if (reach === 'own' || reach === 'administer')
    return refusedAs({
      ...{ status: 403, code: 'FORBIDDEN' },
      detail:
        'nobody signs in here yet, so nobody has this: make the first steward by the link that the service printed when it started',
    });
  const refused = originProblem(request, false);
  return refused ? refusedAs(refused) : { asker: ANYONE };
}

const refusedAs = (refused: Refused): Passed => ({ asker: ANYONE, refused });

function actionProblem(asker: Asker, action: Action, bed: string | undefined): Refused | undefined {
  if (action === 'own' && asker.kind !== 'person')
    return forbidden('expected somebody who signed in, got what has no sign-in of its own');
  if (may(asker, action, bed)) return undefined;
  return forbidden(
    isAtNamedBeds(asker.role, action) && bed !== undefined
      ? `the role "${asker.role}" may do this ("${action}") at ${asker.beds.join(', ')} only, not at "${bed}"`
      : `the role "${asker.role}" may not do this ("${action}"): a steward can give another role`,
  );
}

const forbidden = (detail: string): Refused => ({ status: 403, code: 'FORBIDDEN', detail });

/** The bed that an address is about; undefined where it is about none, or about something that is not there. */
function bedOf({ params, routeOptions }: FastifyRequest, access: AccessPorts): string | undefined {
  const { bed, id = '', inspection = '' } = (params ?? {}) as Readonly<Record<string, string | undefined>>;
  if (bed !== undefined) return bed;
  if (routeOptions.url?.startsWith('/api/alarms/:id')) return access.bedOfAlarm(id);
  return routeOptions.url?.startsWith('/api/inspections/') ? access.bedOfInspection(inspection) : undefined;
}
