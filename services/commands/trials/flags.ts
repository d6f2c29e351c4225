/** What the commands of a trial share. */
import { randomUUID } from 'node:crypto';
import { SandlarderError } from '../../core/errors.js';
import { formatTime } from '../../core/model/time.js';
import type { ServiceFlags as AskingFlags } from '../service-client.js';

export interface ServiceFlags extends AskingFlags {
  readonly json?: boolean;
}

export interface WrittenFlags extends ServiceFlags {
  readonly by: string;
  readonly at?: string;
}

/** What every record begins with. */
export const headOf = ({ by, at }: WrittenFlags): { id: string; at: string; by: string } => ({
  ...{ id: randomUUID(), at: at ?? formatTime(Math.floor(Date.now() / 1000) * 1000), by },
});

export const trialPath = (trial: string, part = ''): string =>
  `/api/trials/${encodeURIComponent(trial)}${part}`;

/** `pit-a`, `pit-a=north` with its block, `pit-a=north:fine` or `pit-a:fine` with its treatment. @throws SandlarderError WRONG_USAGE */
export function bedOf(text: string): { bed: string; block?: string; treatment?: string } {
  const [, bed = '', block, treatment] = /^([^=:]+)(?:=([^:]+))?(?::(.+))?$/.exec(text) ?? [];
  if (bed === '')
    throw new SandlarderError(
      'WRONG_USAGE',
      `--beds: expected BED, BED=BLOCK, BED:TREATMENT or BED=BLOCK:TREATMENT, got ${JSON.stringify(text)}`,
    );
  return { bed, ...(block !== undefined && { block }), ...(treatment !== undefined && { treatment }) };
}

/** `fine=sieved at 1 mm`. @throws SandlarderError WRONG_USAGE */
export function describedOf(texts: readonly string[]): Record<string, string> {
  return Object.fromEntries(
    texts.map((text) => {
      const [, treatment = '', what = ''] = /^([^=]+)=(.+)$/s.exec(text) ?? [];
      if (treatment === '')
        throw new SandlarderError(
          'WRONG_USAGE',
          `--described: expected TREATMENT=TEXT, got ${JSON.stringify(text)}`,
        );
      return [treatment, what];
    }),
  );
}
