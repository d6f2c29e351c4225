/** Calibrations as they are made and asked for. */
import { randomUUID } from 'node:crypto';
import {
  type CalibrationRequest,
  COVERAGE_FACTOR,
  calibrationOf,
  type FieldSample,
  fieldCheck,
  readPairs,
} from '../core/calibration/index.js';
import { SandlarderError } from '../core/errors.js';
import type { Calibration, CalibrationBody } from '../core/model/calibration-record.js';
import type { FieldCheckBody, FieldCheckRecord } from '../core/model/field-check.js';
import type { Site } from '../core/model/site.js';
import { type Thresholds, thresholdsInForce } from '../core/model/threshold.js';
import { formatTime } from '../core/model/time.js';
import { dueAfter } from '../core/watch/calibration-due.js';
import type { CalibrationQuery, DueView, PairsBody, PairsView } from '../http/index.js';
import type { KnownProbe } from './directory.js';
import { requireCome } from './known-bed.js';
import { fitOf, groupsOf, requireMeant } from './pairs-groups.js';
import type { Station } from './station.js';

/** Of a probe without calibration nothing is claimed: its error is what the check finds. k = 1, °C or %RH. */
const UNKNOWN = 0.001;

const TOLERANCE = { temperature: 'probe_tolerance_C', humidity: 'probe_tolerance_RH' } as const;
const INTERVAL = { temperature: 'calibrate_temperature_days', humidity: 'calibrate_humidity_days' } as const;
const UNIT = { temperature: '°C', humidity: '%RH' } as const;

export class CalibrationDesk {
  readonly #station: Station;
  /** Wall clock, ms. */
  readonly #now: () => number;

  constructor(station: Station, now: () => number) {
    this.#station = station;
    this.#now = now;
  }

  /** @throws SandlarderError NOT_FOUND for a probe that nobody has heard of */
  list({ site, probe, quantity, inForce, limit }: CalibrationQuery): readonly Calibration[] {
    const { registry } = this.#station;
    if (probe !== undefined && !this.#isHeardOf(site, probe))
      throw new SandlarderError(
        'NOT_FOUND',
        `probe: expected one that is described or has sent readings, got ${JSON.stringify(probe)}`,
      );
    if (inForce !== true) return registry.calibrations.list({ site, probe, quantity, limit });
    const now = this.#now();
    return registry.calibrations
      .list({ site, probe, quantity, limit: Number.MAX_SAFE_INTEGER })
      .filter((record) => this.isInForce(record, now))
      .slice(0, limit);
  }

  /** Described, with readings kept apart, or calibrated at a time when it was one of these. */
  #isHeardOf(site: string | undefined, probe: string): boolean {
    const { registry, archive } = this.#station;
    const isMeant = (one: { site: string; probe: string }): boolean =>
      one.probe === probe && (site === undefined || one.site === site);
    const described = registry.sites
      .descriptions()
      .some((one) => one.probes.some(({ id }) => isMeant({ site: one.site.id, probe: id })));
    return (
      described ||
      archive.apart.list().some(isMeant) ||
      registry.calibrations.list({ site, probe, quantity: undefined, limit: 1 }).length > 0
    );
  }

  /** @throws SandlarderError NOT_FOUND */
  get(id: string): Calibration {
    const record = this.#station.registry.calibrations.get(id);
    if (!record) throw new SandlarderError('NOT_FOUND', `no calibration has the id "${id}"`);
    return record;
  }

  isInForce({ id, site, probe, quantity }: Calibration, at = this.#now()): boolean {
    return this.#station.calibrations.inForce(site, probe, quantity, at)?.id === id;
  }

  /** The record that stands in the place of one. */
  supersededBy({ id, site, probe }: Calibration): string | null {
    const records = this.#station.registry.calibrations.ofProbe(site, probe);
    return records.find(({ supersedes }) => supersedes === id)?.id ?? null;
  }

  add(body: CalibrationBody): Calibration {
    const { from = body.doneAt } = body;
    return this.#station.inTransaction(() => this.write({ ...body, from }));
  }

  /** Fits and keeps a calibration, within the caller's transaction. */
  write(request: CalibrationRequest): Calibration {
    const calibration = this.made(request);
    this.#station.calibrations.add(calibration, this.#now());
    const { site, probe } = request;
    const known = this.#station.directory.find(site, probe);
    const replaced = calibration.supersedes ? this.get(calibration.supersedes).from : calibration.from;
    if (known) this.#station.noteCalibration(known, Math.min(replaced, calibration.from));
    return calibration;
  }

  /** The calibration that a request makes, without keeping it. */
  made(request: CalibrationRequest): Calibration {
    const { site, probe, quantity, doneAt, from } = request;
    for (const [name, time] of Object.entries({ doneAt, from })) requireCome(time, this.#now(), name);
    return calibrationOf(request, {
      id: randomUUID(),
      records: this.#station.registry.calibrations
        .ofProbe(site, probe)
        .filter((record) => record.quantity === quantity),
      existsSince: this.existsSince(site, probe),
      tolerance: this.#thresholds(site)[TOLERANCE[quantity]],
    });
  }

  /**
   * Since when a probe is known: its first placement or reading, or when its description was loaded.
   *
   * @throws SandlarderError NOT_FOUND for one that nobody described and that has sent nothing
   */
  existsSince(site: string, probe: string): number {
    const { archive, registry, directory } = this.#station;
    const known = directory.find(site, probe);
    const key = known?.key ?? archive.keys.find(site, probe);
    const times = [
      known?.stays[0]?.from,
      known && registry.sites.firstLoadedAt(site, probe),
      key === undefined ? undefined : archive.readings.firstTime(key, 0),
      key === undefined ? undefined : archive.apartReadings.firstTime(key, 0),
    ].filter((time) => time !== undefined);
    if (times.length === 0)
      throw new SandlarderError(
        'NOT_FOUND',
        `probe: expected one that site "${site}" describes or that has sent readings, got ${JSON.stringify(probe)}`,
      );
    return Math.min(...times);
  }

  #thresholds(site: string): Thresholds {
    const description = this.#station.registry.sites.descriptions().find((one) => one.site.id === site);
    return thresholdsInForce(description?.site.thresholds);
  }

  /** Those of the bed where a probe stands now, by which its alarms go; of the site where it stands in none. */
  #thresholdsOf(site: Site, probe: string, now: number): Thresholds {
    const { directory } = this.#station;
    const stay = directory.find(site.id, probe)?.stays.find(({ from, to }) => from <= now && now < to);
    const bed = stay?.placement && directory.beds.get(stay.placement.bed);
    return bed?.watched.thresholds ?? thresholdsInForce(site.thresholds);
  }

  /** Pairs from a file: a calibration for each probe and quantity in it, all or none. */
  pairs(body: PairsBody): PairsView {
    const { site, csv, dryRun, probe, quantity, uncertainty, leaveOut: _, ...shared } = body;
    const { from = body.doneAt } = body;
    const read = readPairs(csv, {
      ...(quantity && { quantity }),
      ...(uncertainty !== undefined && { referenceUncertainty: uncertainty }),
    });
    if (read.badLines.length > 0) return { badLines: read.badLines, calibrations: [], kept: false };
    const groups = groupsOf(read.pairs, probe);
    requireMeant(groups, body);
    const requests = groups.map(({ lines, ...group }) => ({
      ...{ ...shared, ...group, site, from },
      fit: fitOf({ lines, ...group }, body),
    }));
    const calibrations = dryRun
      ? requests.map((request) => this.made(request))
      : this.#station.inTransaction(() => requests.map((request) => this.write(request)));
    return { badLines: [], calibrations, kept: !dryRun };
  }

  /** Every probe and quantity with a calibration, the first due first. */
  due(): DueView[] {
    const now = this.#now();
    const views = this.#station.registry.sites.descriptions().flatMap(({ site, probes }) =>
      probes.flatMap(({ id }) =>
        (['temperature', 'humidity'] as const).flatMap((quantity): DueView[] => {
          const record = this.#station.calibrations.inForce(site.id, id, quantity, now);
          if (!record)
            return [{ site: site.id, probe: id, quantity, calibration: null, dueAt: null, isDue: false }];
          const dueAt = dueAfter(record.doneAt, this.#thresholdsOf(site, id, now)[INTERVAL[quantity]]);
          return [{ site: site.id, probe: id, quantity, calibration: record.id, dueAt, isDue: dueAt <= now }];
        }),
      ),
    );
    return views.sort((one, other) => (one.dueAt ?? Infinity) - (other.dueAt ?? Infinity));
  }

  fieldChecks(site: string | undefined, probe: string | undefined, limit: number): FieldCheckRecord[] {
    return this.#station.registry.fieldChecks.list(site, probe, limit);
  }

  /** @throws SandlarderError NOT_FOUND, CONFLICT for a time to come or a reference without a calibration, TOO_FEW_SAMPLES */
  checkInField(body: FieldCheckBody): FieldCheckRecord {
    const {
      site,
      quantity,
      placeUncertainty = 0,
      bound = this.#thresholds(site)[TOLERANCE[quantity]],
    } = body;
    requireCome(body.to, this.#now(), 'to');
    const probe = this.#series(body, body.probe);
    const reference = this.#series(body, body.reference);
    if (!this.#station.calibrations.inForce(site, body.reference, quantity, body.from))
      throw new SandlarderError(
        'CONFLICT',
        `reference: expected a probe whose ${quantity} has a calibration in force at ${formatTime(body.from)}, got ${JSON.stringify(body.reference)}`,
      );
    const found = fieldCheck(probe, reference, { unit: UNIT[quantity], bound, placeUncertainty });
    const { difference, expandedUncertainty, enNumber, pairs, verdict, sentence } = found;
    const check: FieldCheckRecord = {
      ...{ ...body, id: randomUUID(), bound, placeUncertainty },
      ...{ difference, expandedUncertainty, enNumber, pairs, verdict, sentence },
    };
    this.#station.inTransaction(() => this.#station.registry.fieldChecks.add(check, this.#now()));
    this.#station.changes.whole('probes');
    return check;
  }

  #series({ site, quantity, from, to }: FieldCheckBody, id: string): FieldSample[] {
    const known = this.#known(site, id);
    const { archive, calibrations } = this.#station;
    return archive.readings.samples(known.key, from, to).flatMap((sample) => {
      const raw = sample[quantity];
      if (raw === undefined) return [];
      const warmth =
        sample.temperature === undefined
          ? undefined
          : calibrations.correct(known, 'temperature', sample.at, sample.temperature).value;
      const { value, uncertainty } = calibrations.correct(known, quantity, sample.at, raw, warmth);
      return [
        {
          time: sample.at,
          value,
          standardUncertainty: uncertainty === null ? UNKNOWN : uncertainty / COVERAGE_FACTOR,
        },
      ];
    });
  }

  #known(site: string, id: string): KnownProbe {
    const known = this.#station.directory.find(site, id);
    if (!known) throw new SandlarderError('NOT_FOUND', `no probe of site "${site}" has the id "${id}"`);
    return known;
  }
}
