/** What the rest of the program may use of the HTTP edge. */
export { formatAddress, isLoopback, type ListenAddress, parseListenAddress } from './address.js';
export { buildApp, type HttpOptions } from './app.js';
export { listen } from './listen.js';
export { createMetrics, type Metrics } from './metrics.js';
export type {
  AlarmQuery,
  BedView,
  BenchPorts,
  BenchView,
  CalibrationPorts,
  CalibrationQuery,
  CalibrationStanding,
  CapturedView,
  CoverageQuery,
  CoverageView,
  DrillView,
  DueView,
  FitView,
  Health,
  HttpPorts,
  LinkAnswer,
  LinkedAlarm,
  LinkView,
  PairsBody,
  PairsView,
  PeoplePorts,
  ProbeSeries,
  ProbeView,
  ReadinessPorts,
  ReadinessView,
  SandPorts,
  SandView,
  SeriesQuery,
  TellingView,
  UsedLink,
} from './ports.js';
export type { BenchAnswer, CapturedAnswer, SaltAnswer } from './schemas/bench.js';
export type { CalibrationAnswer, DueAnswer, PairsAnswer } from './schemas/calibration.js';
export type { FieldCheckAnswer } from './schemas/field-check.js';
export type { DrillAnswer } from './schemas/people.js';
export type { ReadinessAnswer, ReadinessRecordAnswer } from './schemas/readiness.js';
export type { SandAnswer } from './schemas/sand.js';
