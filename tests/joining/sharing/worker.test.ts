import { describe, expect, onTestFinished, test } from 'vitest';
import { SandlarderError } from '../../../services/core/errors.js';
import { Crew } from '../../../services/joining/sharing/crew.js';
import { Worker } from '../../../services/joining/sharing/worker.js';
import { temporaryDirectory } from '../../support/open.js';

const PARTITIONS = 4;

/** Partitions that are open, and by whom: one at a time, as the locks of folders have it. */
class Folders {
  readonly holders = new Map<number, string>();
  readonly broken = new Set<number>();

  open(partition: number, who: string) {
    if (this.holders.has(partition)) throw new SandlarderError('CONFLICT', 'another service is running');
    if (this.broken.has(partition)) throw new SandlarderError('STORE_UNAVAILABLE', 'a page is damaged');
    this.holders.set(partition, who);
    return {
      httpUrl: `http://127.0.0.1:${8101 + partition}`,
      health: () => ({ status: 'ok', accepting: true }) as const,
      close: async () => void this.holders.delete(partition),
    };
  }
}

/** A worker whose time is passed by hand: `look` is when it looks next. */
function start(folder: string, folders: Folders) {
  const crew = new Crew(folder);
  const log: string[] = [];
  let now = 0;
  let due: (() => void) | undefined;
  const worker = new Worker({
    ...{ partitions: PARTITIONS, crew, url: 'http://127.0.0.1:8080' },
    open: async (partition) => folders.open(partition, crew.name),
    log: (line) => log.push(line),
    clock: () => now,
    after: (_delay_ms, call) => {
      due = call;
      return () => {
        due = undefined;
      };
    },
  });
  const atRest = () => expect.poll(() => due).toBeDefined();
  let ended: Promise<void> | undefined;
  const end = (): Promise<void> => {
    ended ??= worker.close().then(() => crew.leave());
    return ended;
  };
  onTestFinished(end);
  return {
    ...{ worker, crew, log, atRest, end },
    async look(passed_ms = 500): Promise<void> {
      await atRest();
      now += passed_ms;
      const call = due;
      due = undefined;
      call?.();
      await atRest();
    },
  };
}

const heldBy = ({ worker }: { worker: Worker }): number[] => [...worker.held.keys()];

describe('a worker', () => {
  test('that is alone takes all partitions', async () => {
    const one = start(temporaryDirectory(), new Folders());
    await one.atRest();
    expect(heldBy(one)).toEqual([0, 1, 2, 3]);
    expect(one.log).toContain('all 4 partitions are held');
  });

  test('leaves some to one that comes later, and no two ever hold one', async () => {
    const [folder, folders] = [temporaryDirectory(), new Folders()];
    const one = start(folder, folders);
    await one.atRest();
    const other = start(folder, folders);
    for (let round = 0; round < 3; round += 1) {
      await one.look();
      await other.look();
    }
    expect([heldBy(one).length, heldBy(other).length]).toEqual([2, 2]);
    expect([...heldBy(one), ...heldBy(other)].sort()).toEqual([0, 1, 2, 3]);
    expect([...one.worker.workers().values()].map(({ held }) => held.length)).toEqual([2, 2]);
  });

  test('takes over what another left', async () => {
    const [folder, folders] = [temporaryDirectory(), new Folders()];
    const one = start(folder, folders);
    await one.atRest();
    const other = start(folder, folders);
    for (let round = 0; round < 3; round += 1) {
      await one.look();
      await other.look();
    }
    await one.end();
    await other.look();
    expect(heldBy(other)).toEqual([0, 1, 2, 3]);
    expect(new Set(folders.holders.values())).toEqual(new Set([other.crew.name]));
  });

  test('goes without a partition that some other process has, says so, and takes it once it is free', async () => {
    const folders = new Folders();
    folders.holders.set(2, 'somebody else');
    const one = start(temporaryDirectory(), folders);
    await one.look(6_000);
    expect(heldBy(one)).toEqual([0, 1, 3]);
    expect(one.worker.forsaken()).toEqual([2]);
    folders.holders.delete(2);
    await one.look();
    expect(heldBy(one)).toEqual([0, 1, 2, 3]);
    expect(one.worker.forsaken()).toEqual([]);
  });

  test('goes without one that is damaged, says why, and tries it again now and then', async () => {
    const folders = new Folders();
    folders.broken.add(1);
    const one = start(temporaryDirectory(), folders);
    await one.atRest();
    expect(heldBy(one)).toEqual([0, 2, 3]);
    expect(one.log).toContain('p001 cannot be taken: a page is damaged');
    folders.broken.clear();
    await one.look();
    expect(heldBy(one)).toEqual([0, 2, 3]);
    await one.look(10_000);
    expect(heldBy(one)).toEqual([0, 1, 2, 3]);
  });
});
