/** One service of the season for all tests that only read. */
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Running, startKept } from '../../support/processes.js';
import { SEASON } from './season.js';

export interface SeasonToRead {
  /** `http://127.0.0.1:PORT`. */
  readonly http: string;
  readonly mqtt: string;
}

declare module 'vitest' {
  export interface ProvidedContext {
    seasonToRead: SeasonToRead;
  }
}

/** Puts the season as it was at its end into a data folder. */
export const copyTo = (data: string): void => cpSync(join(SEASON, 'data'), data, { recursive: true });

/** Where a service that was started listens. */
export async function addressesOf(service: Running): Promise<SeasonToRead> {
  const [, http = ''] = await service.said(/questions at (\S+)\/api/);
  const [mqtt = ''] = await service.said(/mqtt:\/\/[^\s,;]+/);
  return { http, mqtt };
}

export async function serveToRead(): Promise<SeasonToRead & { readonly end: () => Promise<void> }> {
  const directory = mkdtempSync(join(tmpdir(), 'sandlarder-season-'));
  const data = join(directory, 'data');
  copyTo(data);
  const service = startKept([
    'serve',
    '--data',
    data,
    '--listen',
    '127.0.0.1:0',
    '--mqtt-listen',
    '127.0.0.1:0',
  ]);
  const end = async (): Promise<void> => {
    await service.kill();
    rmSync(directory, { recursive: true, force: true });
  };
  return { ...(await addressesOf(service)), end };
}
