/** What the rest of the program may use of the HTTP edge. */
export { formatAddress, isLoopback, type ListenAddress, parseListenAddress } from './address.js';
export { buildApp, type HttpOptions } from './app.js';
export {
  buildCentreApp,
  type CentreHealth,
  type CentreOptions,
  type CentrePorts,
  type PlaceOfSite,
} from './centre-app.js';
export { listen } from './listen.js';
export { createMetrics, type Metrics } from './metrics.js';
export { builtPage } from './page.js';
export type {
  AccessParty,
  AccessView,
  AlarmQuery,
  AlarmStory,
  BedEvent,
  BedView,
  BenchPorts,
  BenchView,
  BuriedView,
  CalibrationPorts,
  CalibrationQuery,
  CalibrationStanding,
  CalibrationThen,
  CapturedView,
  ChangedView,
  CoverageQuery,
  CoverageView,
  CurvesQuery,
  DepthView,
  DescribedView,
  DrillView,
  DueView,
  EntryKind,
  EntryName,
  EventAbout,
  EventQuery,
  Expected,
  ExportDocument,
  ExportFormat,
  ExportPorts,
  ExportQuery,
  FilledView,
  FillingView,
  FitView,
  FlaggedValue,
  FormerProbeView,
  Health,
  HourSeries,
  HttpPorts,
  InspectedView,
  KnownProbeView,
  LedgerPorts,
  LinkAnswer,
  LinkedAlarm,
  LinkView,
  LiveEvent,
  LivePorts,
  LongArchiveHealth,
  LookView,
  MeasuredSeries,
  OlderHealth,
  OlderReadings,
  OlderRows,
  OutlookQuery,
  OutlookView,
  PairsBody,
  PairsView,
  PeoplePorts,
  PhotoView,
  ProbeQuery,
  ProbeSeries,
  ProbeSwing,
  ProbeView,
  ReadFrom,
  ReadinessPorts,
  ReadinessView,
  RecordsBody,
  RecordsView,
  SandPorts,
  SandView,
  SeasonPorts,
  SeasonView,
  SeriesPorts,
  SeriesQuery,
  ShadeSeries,
  SiteChangeView,
  SiteEntry,
  SitePorts,
  SiteView,
  StockEntryView,
  StockedView,
  StockQuery,
  StockView,
  StoryProbe,
  StreamEnd,
  SwingView,
  TakenView,
  TellingView,
  TimeSpan,
  TodayPorts,
  TodayView,
  TrialKept,
  TrialPorts,
  TrialReportView,
  UsedLink,
  WayView,
} from './ports.js';
export type {
  AccessPorts,
  AccessStanding,
  AccountBody,
  AccountView,
  AskedFrom,
  Asker,
  Chosen,
  DeedView,
  DeviceSecretView,
  LinkPurposeView,
  MadeSecretView,
  NewSession,
  SignedIn,
  TokenBody,
  TokenView,
} from './ports-access.js';
export type { MadeUp } from './routes/sign-in.js';
export type { BenchAnswer, CapturedAnswer, SaltAnswer } from './schemas/bench.js';
export type { CalibrationAnswer, DueAnswer, PairsAnswer } from './schemas/calibration.js';
export type { FieldCheckAnswer } from './schemas/field-check.js';
export type { DepthAnswer, FilledAnswer, FillingAnswer } from './schemas/filling.js';
export type { InspectedAnswer, InspectionAnswer } from './schemas/inspection.js';
export type { LookAnswer } from './schemas/look.js';
export type { OutlookAnswer } from './schemas/outlook.js';
export type { DrillAnswer } from './schemas/people.js';
export type { ReadinessAnswer, ReadinessRecordAnswer } from './schemas/readiness.js';
export type { RecordsAnswer } from './schemas/records.js';
export type { SandAnswer } from './schemas/sand.js';
export type { SeasonAnswer } from './schemas/season.js';
export type { StockAnswer, StockedAnswer } from './schemas/stock.js';
export type { TrialAnswer, TrialReportAnswer, TrialResultAnswer } from './schemas/trial.js';
export type { CurvesAnswer } from './schemas/trial-curves.js';
