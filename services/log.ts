/**
 * Log lines on standard error, for people or as JSON: the same thing at most once a minute, with how often it was left out.
 */
import pino from 'pino';
import { SandlarderError } from './core/errors.js';

/** Least time between two lines of one kind, ms. */
const REPEAT_AFTER_ms = 60_000;

/** Kinds kept in mind; beyond it the oldest is forgotten. */
const MOST_KINDS = 1_000;

const LOG_FORMS = ['words', 'json'] as const;
export type LogForm = (typeof LOG_FORMS)[number];

/** @throws SandlarderError WRONG_USAGE naming what was expected */
export function readLogForm(given: string = LOG_FORMS[0]): LogForm {
  const form = LOG_FORMS.find((one) => one === given);
  if (form) return form;
  const expected = LOG_FORMS.join(' or ');
  throw new SandlarderError('WRONG_USAGE', `--log: expected ${expected}, got ${JSON.stringify(given)}`);
}

export type Log = (line: string, kind?: string) => void;

export interface LogEntry {
  readonly line: string;
  /** What can happen again and again is of a kind: trouble, as a rule. */
  readonly kind?: string | undefined;
  /** How many of its kind were left out before it. */
  readonly left: number;
}

/** As a person reads it, without its end. */
export const inWords = ({ line, left }: LogEntry): string =>
  left > 0 ? `${line} (and ${left} more like it)` : line;

/**
 * Writes each entry as one line of JSON: `level`, `time` (RFC 3339), `msg`; where it is of a kind also `about`, and
 * `leftOut` where others of it were. It is written when the call returns: the last line before an end is not lost.
 *
 * @param descriptor of the file, 2 for standard error
 */
export function jsonWriter(descriptor: number): (entry: LogEntry) => void {
  const formatters = { level: (level: string) => ({ level }) };
  const options = { base: null, timestamp: pino.stdTimeFunctions.isoTime, formatters };
  const logger = pino(options, pino.destination({ dest: descriptor, sync: true }));
  return ({ line, kind, left }) => {
    if (kind === undefined) logger.info(line);
    else logger.warn({ about: kind, ...(left > 0 && { leftOut: left }) }, line);
  };
}

/**
 * @param write takes one entry
 * @param now a clock, ms
 */
export function createLog(write: (entry: LogEntry) => void, now: () => number): Log {
  const kinds = new Map<string, { at: number; left: number }>();
  return (line, kind) => {
    if (kind === undefined) return write({ line, left: 0 });
    const before = kinds.get(kind);
    if (before && now() - before.at < REPEAT_AFTER_ms) {
      before.left += 1;
      return;
    }
    const left = before?.left ?? 0;
    kinds.delete(kind);
    kinds.set(kind, { at: now(), left: 0 });
    const [oldest] = kinds.keys();
    if (kinds.size > MOST_KINDS && oldest !== undefined) kinds.delete(oldest);
    write({ line, kind, left });
  };
}
