import { describe, expect, test } from 'vitest';
import { createMetrics } from '../../services/http/metrics.js';
import { readOpenMetrics } from './openmetrics.js';

const read = async (metrics: ReturnType<typeof createMetrics>) =>
  readOpenMetrics((await metrics.text()).text);

const OURS = {
  sandlarder_build_info: 'gauge',
  sandlarder_messages_received: 'counter',
  sandlarder_readings_kept: 'counter',
  sandlarder_duplicates: 'counter',
  sandlarder_set_aside: 'counter',
  sandlarder_unknown_probe_readings: 'counter',
  sandlarder_broker_refused: 'counter',
  sandlarder_commits: 'counter',
  sandlarder_commit_seconds: 'histogram',
  sandlarder_alarms_raised: 'counter',
  sandlarder_outbox_sent: 'counter',
  sandlarder_watch_lag_seconds: 'gauge',
  sandlarder_outbox_waiting: 'gauge',
  sandlarder_forwarded_readings: 'counter',
  sandlarder_forward_refused_readings: 'counter',
  sandlarder_forward_failures: 'counter',
  sandlarder_forward_waiting_readings: 'gauge',
  sandlarder_forward_age_seconds: 'gauge',
  sandlarder_older_waiting_seconds: 'gauge',
  sandlarder_older_done_timestamp_seconds: 'gauge',
  sandlarder_older_held_beds: 'gauge',
  sandlarder_flagged_readings: 'gauge',
  sandlarder_quarantine_rows: 'gauge',
  sandlarder_probes_known: 'gauge',
  sandlarder_streams_open: 'gauge',
  sandlarder_streams_opened: 'counter',
  sandlarder_streams_refused: 'counter',
  sandlarder_streams_ended: 'counter',
};

describe('metrics', () => {
  test('are OpenMetrics text, ours and those of the process, each with its help', async () => {
    const families = await read(createMetrics('0.1.0'));
    const ours = [...families].filter(([name]) => name.startsWith('sandlarder_'));
    expect(Object.fromEntries(ours.map(([name, { type }]) => [name, type]))).toEqual(OURS);
    expect(families.get('process_cpu_seconds')?.type).toBe('counter');
    for (const [, { help }] of families) expect(help.length).toBeGreaterThan(10);
  });

  test('stay so when read again and when everything has been counted', async () => {
    const metrics = createMetrics('0.1.0');
    metrics.readingsKept.inc(1000);
    metrics.readingsKept.inc();
    metrics.setAside.inc({ reason: 'not-json' }, 2);
    metrics.setAside.inc({ reason: 'unit-unknown' });
    metrics.alarmsRaised.inc({ kind: 'heating', action: 'unpack' });
    metrics.outboxSent.inc({ via: 'webhook', result: 'failed' });
    for (const time_s of [0.0005, 0.02, 0.02, 60]) metrics.commitSeconds.observe(time_s);
    metrics.watchLag_s.set(7200);
    await metrics.text();
    const families = await read(metrics);
    const samples = (name: string) => families.get(`sandlarder_${name}`)?.samples;
    expect(samples('readings_kept')).toEqual([
      { name: 'sandlarder_readings_kept_total', labels: {}, value: 1001 },
    ]);
    expect(samples('set_aside')?.map(({ labels, value }) => [labels['reason'], value])).toEqual([
      ['not-json', 2],
      ['unit-unknown', 1],
    ]);
    expect(samples('alarms_raised')?.[0]?.labels).toEqual({ kind: 'heating', action: 'unpack' });
    expect(samples('watch_lag_seconds')?.[0]?.value).toBe(7200);
    const commits = samples('commit_seconds') ?? [];
    expect(commits.find(({ labels }) => labels['le'] === '0.025')?.value).toBe(3);
    expect(commits.find(({ name }) => name.endsWith('_count'))?.value).toBe(4);
  });

  test('of two services do not mix', async () => {
    const one = createMetrics('0.1.0');
    const other = createMetrics('0.2.0');
    one.messagesReceived.inc(5);
    const families = await read(other);
    expect(families.get('sandlarder_messages_received')?.samples[0]?.value).toBe(0);
    expect(families.get('sandlarder_build_info')?.samples[0]?.labels).toEqual({ version: '0.2.0' });
  });

  test('refuse what would falsify them', () => {
    const { readingsKept, setAside } = createMetrics('0.1.0');
    expect(() => readingsKept.inc(-1)).toThrow('decrease');
    expect(() => readingsKept.inc(Number.POSITIVE_INFINITY)).toThrow('valid number');
    expect(() => setAside.inc({ cause: 'not-json' } as never)).toThrow('label');
  });

  test('escape a label value', async () => {
    const metrics = createMetrics('0.1.0');
    metrics.setAside.inc({ reason: 'a"b\\c\nd' });
    expect((await read(metrics)).get('sandlarder_set_aside')?.samples[0]?.labels['reason']).toBe(
      'a\\"b\\\\c\\nd',
    );
  });
});

describe('the reader itself refuses', () => {
  const counter = '# HELP a Something.\n# TYPE a counter\n';
  const histogram = '# TYPE a histogram\n';
  test.each([
    ['no end', `${counter}a_total 1\n`],
    ['an end without its line feed', `${counter}a_total 1\n# EOF`],
    ['text after the end', `${counter}a_total 1\n# EOF\na_total 2\n`],
    ['an empty line', `${counter}\na_total 1\n# EOF\n`],
    ['a comment', `# note\n${counter}a_total 1\n# EOF\n`],
    ['a counter without _total', `${counter}a 1\n# EOF\n`],
    ['a family named _total', '# TYPE a_total counter\na_total_total 1\n# EOF\n'],
    ['a counter below 0', `${counter}a_total -1\n# EOF\n`],
    ['a counter of NaN', `${counter}a_total NaN\n# EOF\n`],
    ['a sample of another family', `${counter}b_total 1\n# EOF\n`],
    ['a sample before its type', 'a_total 1\n# EOF\n'],
    ['a family twice', `${counter}a_total 1\n# TYPE b gauge\nb 1\n${counter}a_total 1\n# EOF\n`],
    ['a series twice', `${counter}a_total 1\na_total 1\n# EOF\n`],
    ['a label twice', `${counter}a_total{x="1",x="2"} 1\n# EOF\n`],
    ['a value that is not escaped', `${counter}a_total{x="1"2"} 1\n# EOF\n`],
    ['a value that is no number', `${counter}a_total one\n# EOF\n`],
    ['a histogram without +Inf', `${histogram}a_bucket{le="1"} 1\na_sum 1\na_count 1\n# EOF\n`],
    [
      'buckets that fall',
      `${histogram}a_bucket{le="1"} 2\na_bucket{le="+Inf"} 1\na_sum 1\na_count 1\n# EOF\n`,
    ],
    ['a count of its own', `${histogram}a_bucket{le="+Inf"} 1\na_sum 1\na_count 2\n# EOF\n`],
  ])('%s', (_what, text) => expect(() => readOpenMetrics(text)).toThrow());
});
