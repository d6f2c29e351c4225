/** Reading what an alarm rests on: a value that is not of the kind asked for is absent. */
import type { Evidence } from '../model/alarm.js';
import { EARLIEST_TIME_ms, LATEST_TIME_ms, parseTime } from '../model/time.js';

export function numberOf(evidence: Evidence, name: string): number | undefined {
  const value = evidence[name];
  return typeof value === 'number' && Number.isFinite(value) ? value : undefined;
}

export function wordOf(evidence: Evidence, name: string): string | undefined {
  const value = evidence[name];
  return typeof value === 'string' && value.trim() !== '' ? value : undefined;
}

/** An event time given as RFC 3339 text or as ms since the epoch, in ms; undefined outside 2000..2100. */
export function asTime(value: number | string | undefined): number | undefined {
  if (typeof value === 'string') return parseTime(value);
  return value !== undefined && value >= EARLIEST_TIME_ms && value < LATEST_TIME_ms ? value : undefined;
}

export const timeOf = (evidence: Evidence, name: string): number | undefined => asTime(evidence[name]);
