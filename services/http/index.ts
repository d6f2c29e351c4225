/** What the rest of the program may use of the HTTP edge. */
export { formatAddress, isLoopback, type ListenAddress, parseListenAddress } from './address.js';
export { buildApp, type HttpOptions } from './app.js';
export { listen } from './listen.js';
export { createMetrics, type Metrics } from './metrics.js';
export type {
  AlarmQuery,
  BedView,
  CoverageQuery,
  CoverageView,
  Health,
  HttpPorts,
  ProbeSeries,
  ProbeView,
  SeriesQuery,
} from './ports.js';
