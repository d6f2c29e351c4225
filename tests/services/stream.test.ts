/** The stream of a service that runs: what a probe publishes is told, and a stop ends it. */
import { connectAsync } from 'mqtt';
import { expect, onTestFinished, test } from 'vitest';
import { read } from '../http/live.js';
import { run, start } from '../support/processes.js';
import { SHORT_SEASON, siteOf } from '../support/season.js';
import { ownFolder } from '../support/served-site.js';

test('readings that arrive and a site that is loaded are told, and a stop ends the stream', async () => {
  const folder = ownFolder();
  const data = folder.path('data');
  await run(['load', folder.file('site.json', JSON.stringify(siteOf(SHORT_SEASON))), '--data', data]);
  const service = start(['serve', '--data', data, '--listen', '127.0.0.1:0', '--mqtt-listen', '127.0.0.1:0']);
  const [, http = ''] = await service.said(/questions at (\S+)\/api/);
  const [, broker = ''] = await service.said(/(mqtt:\/\/[^,\s]+)/);
  const reader = read(http);
  await reader.came(/retry/);
  const probe = await connectAsync(broker);
  onTestFinished(async () => probe.endAsync(true));
  const reading = { n: 'temperature', u: 'Cel', v: 21, bt: SHORT_SEASON.startAt / 1000 };
  const topic = 'sandlarder/v1/test-ridge/probes/p01/readings';
  await probe.publishAsync(topic, JSON.stringify([reading]), { qos: 1 });
  await reader.came(/event: readings\ndata: \{"beds":\["pit-t"\]\}\n\n/);
  await run(['load', folder.file('again.json', JSON.stringify(renamed)), '--data', data]);
  await reader.came(/event: site\n/);
  expect(await (await fetch(`${http}/metrics`)).text()).toContain('\nsandlarder_streams_open 1\n');
  expect(await service.stop()).toBe(0);
  await reader.closed;
});

const renamed = {
  ...(siteOf(SHORT_SEASON) as object),
  site: { id: 'test-ridge', name: 'Ridge', timezone: 'Africa/Lusaka' },
};
