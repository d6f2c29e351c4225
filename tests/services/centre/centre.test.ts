/**
 * Readings go from an edge machine's Mosquitto by a bridge to a centre's, where three workers divide the sites; the one
 * that has the first site is killed in mid-season. What the centre keeps and finds is what the edge's one process does.
 */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { partitionName, partitionOf } from '../../../services/core/model/partition.js';
import { cleaningUp, temporaryDirectory } from '../../bench/processes.js';
import { Probes } from '../../faults/probes.js';
import { makeSeason, SHORT_SEASON } from '../../support/season.js';
import { inBatches } from '../../support/standing-station.js';
import { startMosquitto } from '../mosquitto.js';
import {
  at,
  counted,
  healthOf,
  PARTITIONS,
  placeOf,
  standing,
  startEdge,
  startWorker,
  until,
  whole,
} from './centre-parts.js';

/** One in each partition. */
const FIRST = 'ridge-a';
const SITES = [FIRST, 'ridge-b', 'ridge-d'];
const season = makeSeason({ ...SHORT_SEASON, days: 7, rotFromDay: 6, wetFromDay: 2 });
const seasons = SITES.map((site) => at(season, site));

/** As probes of all sites would send them, in turn. */
const messages = season.messages.flatMap((_, index) =>
  seasons.flatMap((one) => one.messages.slice(index, index + 1)),
);

test('a worker dies in mid-season: nothing is lost or doubled, and alarms are those of one process', () =>
  cleaningUp(async (undo) => {
    expect(new Set(SITES.map((site) => partitionOf(site, PARTITIONS))).size).toBe(PARTITIONS);
    const directory = temporaryDirectory(undo);
    const broker = await startMosquitto();
    undo(() => broker.dispose());
    const start = () => startWorker(undo, directory, broker);
    const workers = await Promise.all([start(), start(), start()]);
    await whole(workers);
    const edge = await startEdge(
      undo,
      seasons.map(({ site }) => site),
      broker,
    );
    const folders = SITES.map((site) => join(directory, partitionName(partitionOf(site, PARTITIONS))));
    const kept = () => folders.map((folder) => counted(folder, 'reading'));

    const probes = Probes.at(undo, edge.broker.url);
    const [firstHalf = [], secondHalf = []] = inBatches(messages, Math.ceil(messages.length / 2));
    const publishing = probes.publish(firstHalf);
    await until('readings of each site', kept, (counts) => counts.every((count) => count > 0));
    const { workers: living } = await healthOf(workers[0]);
    const victim = workers.find(({ name }) => holderOf(living, folders[0]) === name);
    const others = workers.filter((one) => one !== victim);
    const [witness = workers[0]] = others;
    await victim?.running.kill();
    await publishing;
    await probes.publish(secondHalf);
    await whole(others);
    const place = await placeOf(witness, FIRST);
    expect((await fetch(`${place.url}/api/beds/pit-${FIRST}`)).status).toBe(200);
    const look = { by: 'keeper', opened: true, repacked: false, found: ['rot'], at: inspectedAt() };
    const looked = await fetch(`${edge.http}/api/beds/pit-${FIRST}/inspections`, {
      ...{ method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(look) },
    });
    expect(looked.status).toBe(201);

    await until('all readings', kept, (counts) => counts.every((count) => count === season.messages.length));
    const told = () =>
      folders.map((folder) => counted(folder, 'edge_alarm')).reduce((sum, one) => sum + one, 0);
    await until(
      'all records',
      () => [counted(edge.directory, 'record_due'), told()],
      ([due, count]) => due === 0 && count === counted(edge.directory, 'alarm'),
    );
    const answered = counted(edge.directory, 'alarm WHERE ack_at IS NOT NULL AND withdrawn = 0');
    await until(
      'answers taken over',
      () => folders.reduce((sum, folder) => sum + counted(folder, ANSWERED_ALIKE), 0),
      (count) => count === answered,
    );
    for (const { running } of [...others, edge]) expect(await running.stop()).toBe(0);
    const single = standing(
      edge.directory,
      SITES.map((site) => `pit-${site}`),
    );
    for (const [index, folder] of folders.entries()) {
      const bed = `pit-${SITES[index]}`;
      const found = standing(folder, [bed]);
      expect(found).toMatchObject({ readings: season.messages.length, setAside: 0 });
      expect(found.alarms[bed]).toBe(single.alarms[bed]);
      expect(JSON.parse(found.alarms[bed] ?? '[]').length).toBeGreaterThan(0);
    }
    expect(single.alarms[`pit-${FIRST}`]).toContain('"acknowledged"');
  }));

/** Alarms of the centre with the answer that they have at the edge. */
const ANSWERED_ALIKE =
  "edge_alarm AS edge JOIN alarm USING (id) WHERE edge.acknowledgement ->> '$.at' = ack_at AND withdrawn = 0";

const holderOf = (
  workers: Awaited<ReturnType<typeof healthOf>>['workers'],
  folder = '',
): string | undefined =>
  workers.find(({ held }) => held.some(({ partition }) => folder.endsWith(partition)))?.name;

const inspectedAt = (): string => new Date(SHORT_SEASON.startAt + 6.9 * 86_400_000).toISOString();
