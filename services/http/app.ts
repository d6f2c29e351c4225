/** Puts the HTTP edge together; it does not listen. */
import { constants } from 'node:zlib';
import compress from '@fastify/compress';
import fastify, { type FastifyInstance } from 'fastify';
import { serializerCompiler, type ZodTypeProvider } from 'fastify-type-provider-zod';
import { addAudit } from './access/audit-hooks.js';
import { type Credentials, requireUsable } from './credentials.js';
import { addNotFound, answerClientError, errorHandler, type ReportError } from './error-handler.js';
import { addGuards } from './guards.js';
import { addHeaders } from './headers.js';
import type { HttpApp } from './http-app.js';
import { HTTP_LIMITS } from './limits.js';
import { collectMethods } from './method-not-allowed.js';
import { addOpenApi } from './openapi.js';
import { addPage } from './page.js';
import type { HttpPorts } from './ports.js';
import { addAccess } from './routes/access.js';
import { addAccounts } from './routes/accounts.js';
import { addAlarms } from './routes/alarms.js';
import { addAnswerLink } from './routes/answer-link.js';
import { addBeds } from './routes/beds.js';
import { addBench } from './routes/bench.js';
import { addCalibrations } from './routes/calibrations.js';
import { addCoverage } from './routes/coverage.js';
import { addDeviceSecrets } from './routes/device-secrets.js';
import { addEvents } from './routes/events.js';
import { addExport } from './routes/export.js';
import { addHealth } from './routes/health.js';
import { addInspections } from './routes/inspections.js';
import { addLedger } from './routes/ledger.js';
import { addMetrics } from './routes/metrics.js';
import { addOutlook } from './routes/outlook.js';
import { addPeople } from './routes/people.js';
import { addPhotos } from './routes/photos.js';
import { addPlan } from './routes/plan.js';
import { addProbes } from './routes/probes.js';
import { addQuarantine } from './routes/quarantine.js';
import { addReadiness } from './routes/readiness.js';
import { addReadings } from './routes/readings.js';
import { addRoot } from './routes/root.js';
import { addSand } from './routes/sand.js';
import { addSeasons } from './routes/seasons.js';
import { addSignIn, type MadeUp } from './routes/sign-in.js';
import { addSiteEntries } from './routes/site-entries.js';
import { addSites } from './routes/sites.js';
import { addStream } from './routes/stream.js';
import { addSwing } from './routes/swing.js';
import { addThresholds } from './routes/thresholds.js';
import { addToday } from './routes/today.js';
import { addTokens } from './routes/tokens.js';
import { addTrials } from './routes/trials.js';
import type { StreamLimits } from './streams/stream-hub.js';
import { validatorCompiler } from './validator.js';

export interface HttpOptions {
  /** One user and password that may do all, taken beside sign-ins, by HTTP Basic. */
  readonly credentials?: Credentials | undefined;
  /** Certificate and key, PEM: it speaks TLS then. */
  readonly tls?: { readonly cert: string; readonly key: string } | undefined;
  /** Whether something in front of it speaks TLS and says who asks. */
  readonly behindProxy?: boolean | undefined;
  /** Whether somebody chose that passwords travel in the clear. */
  readonly plainPasswords?: boolean | undefined;
  /** Longest body of a request, bytes; `HTTP_LIMITS.body_bytes` where absent. */
  readonly bodyLimit_bytes?: number | undefined;
  /** Folder of the built page; without it `/` lists the addresses only. */
  readonly page?: string | undefined;
  /** Where what is shown is a made-up season: from when to when, ms. */
  readonly madeUp?: MadeUp | undefined;
  /** Other bounds of the stream than `HTTP_LIMITS.streams`. */
  readonly streams?: Partial<StreamLimits> | undefined;
  /** Wall clock, ms; the machine's where absent. */
  readonly now?: (() => number) | undefined;
  /** Told of every error that is not the asker's doing; they are dropped where absent. */
  readonly report?: ReportError | undefined;
}

/**
 * Builds the HTTP edge over what it needs of the rest. Ready for `inject`, and for `listen`.
 *
 * @throws SandlarderError WRONG_USAGE for credentials that could not be sent or protect nothing
 */
export async function buildApp(ports: HttpPorts, options: HttpOptions = {}): Promise<FastifyInstance> {
  const { credentials, page, report = () => undefined, now = Date.now } = options;
  if (credentials) requireUsable(credentials);
  const app: HttpApp = createServer(options, report);
  const { access } = ports;
  const wider = options.tls !== undefined || options.behindProxy || options.plainPasswords;
  app.decorate('mayListenWider', wider === true);
  await addHeaders(app, options.tls !== undefined);
  const refuseOtherMethods = collectMethods(app);
  addGuards(app, { access, credentials });
  addNotFound(app, page !== undefined);
  addAudit(app, access);
  await app.register(compress, COMPRESSION);
  await addOpenApi(app, ports.health().version);
  for (const add of ROUTES) add(app, ports);
  addSignIn(app, ports, now, options.madeUp);
  addAnswerLink(app, ports, now);
  addRoot(app, page !== undefined);
  if (page !== undefined) await addPage(app, page);
  addStream(app, ports, { ...HTTP_LIMITS.streams, ...options.streams });
  refuseOtherMethods();
  await app.ready();
  return app;
}

/** Answers of some length travel compressed: a season's series to a tenth. Brotli's highest levels take seconds. */
const COMPRESSION = {
  encodings: ['br', 'gzip', 'identity'] as ('br' | 'gzip' | 'identity')[],
  threshold: 1024,
  brotliOptions: { params: { [constants.BROTLI_PARAM_QUALITY]: 4 } },
};

const ROUTES: readonly ((app: HttpApp, ports: HttpPorts) => void)[] = [
  addHealth,
  addBeds,
  addReadings,
  addSwing,
  addExport,
  addEvents,
  addCoverage,
  addInspections,
  addLedger,
  addPhotos,
  addToday,
  addAlarms,
  addProbes,
  addPeople,
  addBench,
  addCalibrations,
  addPlan,
  addOutlook,
  addSeasons,
  addSand,
  addReadiness,
  addTrials,
  addSites,
  addSiteEntries,
  addThresholds,
  addAccess,
  addAccounts,
  addTokens,
  addDeviceSecrets,
  addQuarantine,
  addMetrics,
];

/**
 * Whose word is taken for who asks and by which scheme: what runs on this machine, and what somebody said stands in front
 * of it on its own network.
 */
const PROXIES = { here: ['loopback'], near: ['loopback', 'linklocal', 'uniquelocal'] };

function createServer({ bodyLimit_bytes, tls, behindProxy }: HttpOptions, report: ReportError): HttpApp {
  const onError = errorHandler(report);
  const app = fastify({
    // Its types know one kind of server at a time.
    ...((tls ? { https: tls } : {}) as object),
    trustProxy: behindProxy ? PROXIES.near : PROXIES.here,
    pluginTimeout: HTTP_LIMITS.start_ms,
    bodyLimit: bodyLimit_bytes ?? HTTP_LIMITS.body_bytes,
    routerOptions: { maxParamLength: HTTP_LIMITS.pathPart_characters },
    requestTimeout: HTTP_LIMITS.requestTimeout_ms,
    connectionTimeout: HTTP_LIMITS.connectionTimeout_ms,
    keepAliveTimeout: HTTP_LIMITS.keepAliveTimeout_ms,
    handlerTimeout: HTTP_LIMITS.handlerTimeout_ms,
    maxRequestsPerSocket: HTTP_LIMITS.requestsPerConnection,
    forceCloseConnections: 'idle',
    http: { headersTimeout: HTTP_LIMITS.headersTimeout_ms, maxHeaderSize: HTTP_LIMITS.headers_bytes },
    clientErrorHandler: answerClientError,
    frameworkErrors: (error, request, reply) => {
      onError(error, request as never, reply as never);
    },
  }).withTypeProvider<ZodTypeProvider>();
  app.server.maxConnections = HTTP_LIMITS.connections;
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  app.setErrorHandler(onError);
  app.removeContentTypeParser('text/plain');
  // Of the form behind a link, and of gateways: read as it came.
  app.addContentTypeParser(
    'application/x-www-form-urlencoded',
    { parseAs: 'string' },
    (_request, body, done) => {
      done(null, body);
    },
  );
  return app;
}
