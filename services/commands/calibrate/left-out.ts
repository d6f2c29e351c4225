/** What is left out of a fit, on the command line. */
import { SandlarderError } from '../../core/errors.js';

export interface LeftOut {
  readonly probe: string;
  /** Of the point on a bench, or of the line of a file. */
  readonly number: number;
  readonly reason: string;
}

const LEFT_OUT = /^([a-z0-9-]+):(\d+):(.+)$/;

/** @throws SandlarderError WRONG_USAGE for text that is not PROBE:NUMBER:REASON */
export function leftOutOf(texts: readonly string[], what: 'POINT' | 'LINE'): LeftOut[] {
  return texts.map((text) => {
    const [, probe, number, reason] = LEFT_OUT.exec(text) ?? [];
    if (probe === undefined || reason === undefined)
      throw new SandlarderError(
        'WRONG_USAGE',
        `--leave-out: expected PROBE:${what}:REASON such as "p03:2:lid was open", got ${JSON.stringify(text)}`,
      );
    return { probe, number: Number(number), reason };
  });
}
