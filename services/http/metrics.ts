/** What the service counts of itself, as OpenMetrics text. Base units, and the unit in the name [OpenMetrics 1.0]. */
import {
  Counter,
  collectDefaultMetrics,
  Gauge,
  Histogram,
  type OpenMetricsContentType,
  Registry,
} from 'prom-client';

/** Upper bounds of the time of a commit, s: a solid-state disk commits in milliseconds, an SD card in tenths. */
const COMMIT_BUCKETS_s = [0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5];

export type Metrics = ReturnType<typeof createMetrics>;

/**
 * Counters, histograms and gauges of one process. A label takes only values of a closed list: each new value
 * is a series that is kept for ever.
 *
 * @param version of the program, shown as `sandlarder_build_info`
 */
export function createMetrics(version: string) {
  const registry = new Registry<OpenMetricsContentType>();
  registry.setContentType(Registry.OPENMETRICS_CONTENT_TYPE);
  const { counter, histogram, gauge } = makers(registry);
  collectDefaultMetrics({ register: registry });
  gauge('build_info', 'The program; always 1', 'version').set({ version }, 1);
  return {
    messagesReceived: counter('messages_received', 'Messages taken from the broker'),
    readingsKept: counter('readings_kept', 'Readings stored for the first time'),
    duplicates: counter('duplicates', 'Readings that were stored already with the same value'),
    setAside: counter('set_aside', 'Records and messages put in quarantine', 'reason'),
    unknownProbeReadings: counter('unknown_probe_readings', 'Readings of probes that no site describes'),
    brokerRefused: counter(
      'broker_refused',
      'Connections, publishes and subscriptions that the built-in broker refused',
      'what',
    ),
    commits: counter('commits', 'Transactions of readings'),
    commitSeconds: histogram('commit_seconds', 'Time of a transaction of readings', COMMIT_BUCKETS_s),
    alarmsRaised: counter('alarms_raised', 'Alarms established', 'kind', 'action'),
    outboxSent: counter('outbox_sent', 'Attempts to deliver a message', 'via', 'result'),
    watchLag_s: gauge('watch_lag_seconds', 'Event time not judged yet, of the bed that is furthest behind'),
    outboxWaiting: gauge('outbox_waiting', 'Messages not delivered yet'),
    forwarded: counter(
      'forwarded_readings',
      'Readings that the long archive has taken; a repeat counts again',
    ),
    forwardRefused: counter('forward_refused_readings', 'Readings that the long archive would not take'),
    forwardFailed: counter(
      'forward_failures',
      'Attempts to forward readings that the long archive did not answer with a yes',
    ),
    forwardWaiting: gauge(
      'forward_waiting_readings',
      'Readings that are not forwarded to the long archive yet',
    ),
    forwardAge_s: gauge('forward_age_seconds', 'Since when the oldest of them waits'),
    olderWaiting_s: gauge(
      'older_waiting_seconds',
      'Event time of readings that may go into their hours and have not, of the probe that is furthest behind',
    ),
    olderDone_s: gauge(
      'older_done_timestamp_seconds',
      'When readings went last into their hours; 0 where none did since the start',
    ),
    olderHeld: gauge('older_held_beds', 'Beds of which an open alarm keeps older readings one by one'),
    flaggedReadings: gauge('flagged_readings', 'Stored values that the watch does not use', 'reason'),
    quarantineRows: gauge('quarantine_rows', 'Entries in quarantine'),
    probesKnown: gauge('probes_known', 'Probes that a site describes'),
    streamsOpen: gauge('streams_open', 'Streams of what changes that are open'),
    streamsOpened: counter('streams_opened', 'Streams of what changes that were opened'),
    streamsRefused: counter('streams_refused', 'Streams for which there was no room'),
    streamsEnded: counter('streams_ended', 'Streams that ended: left, slow, old, stopped', 'why'),
    /** All of it as text, with its media type. */
    async text(): Promise<{ readonly text: string; readonly contentType: string }> {
      return { text: await registry.metrics(), contentType: registry.contentType };
    },
  };
}

function makers(registry: Registry<OpenMetricsContentType>) {
  const common = (name: string, help: string) => ({
    name: `sandlarder_${name}`,
    help,
    registers: [registry],
  });
  return {
    counter: <Label extends string = never>(name: string, help: string, ...labelNames: Label[]) =>
      new Counter<Label>({ ...common(`${name}_total`, help), labelNames }),
    gauge: <Label extends string = never>(name: string, help: string, ...labelNames: Label[]) =>
      new Gauge<Label>({ ...common(name, help), labelNames }),
    histogram: (name: string, help: string, buckets: number[]) =>
      new Histogram({ ...common(name, help), buckets }),
  };
}
