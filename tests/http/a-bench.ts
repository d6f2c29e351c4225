/** A bench of two probes over HTTP. */
import { approaching } from '../support/bench-work.js';
import type { StationApp } from './station-app.js';

export const BENCH = {
  ...{ site: 'test-ridge', probes: ['k01', 'k02'], quantity: 'temperature', by: 'bench-hand' },
  reference: { name: 'station thermometer' },
};
export const BATH = { source: 'instrument', reference: 25, uncertainty: 0.05 };

export const opened = async (app: StationApp, change: object = {}): Promise<string> =>
  (await app.post('/api/bench', { ...BENCH, ...change })).json().id;

/** Both probes rest in a bath of 25 °C, k01 1 °C too high. */
export async function resting(app: StationApp): Promise<string> {
  const id = await opened(app);
  await app.post(`/api/bench/${id}/points`, BATH);
  for (const [probe, end] of [
    ['k01', 26],
    ['k02', 25],
  ] as const)
    app.commit(approaching({ probe, from: 0, to: 10, start: 20, end, constant_s: 30 }));
  app.goTo(10);
  return id;
}
