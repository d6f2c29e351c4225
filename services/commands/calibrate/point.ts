/** What `sandlarder calibrate point` says of the bath or jar. */
import { SandlarderError } from '../../core/errors.js';
import { readNumber } from '../numbers.js';

export interface PointOptions {
  readonly ice?: boolean;
  readonly boiling?: string;
  readonly salt?: string;
  readonly reading?: string;
  readonly unit?: string;
  readonly at?: string;
  readonly uncertainty?: string;
  readonly atUncertainty?: string;
  readonly apart?: string;
}

/** Usual uncertainties, k = 1: of an air pressure read nearby, and of a jar's temperature. Judgement. */
const PRESSURE_hPa = 1;
const JAR_C = 0.3;

const numberOf = (flag: string, text: string | undefined): number | undefined =>
  text === undefined ? undefined : readNumber(flag, text, -1e6, 1e6);

function needed(flag: string, text: string | undefined, why: string): number {
  const value = numberOf(flag, text);
  if (value === undefined) throw new SandlarderError('WRONG_USAGE', `expected ${flag} ${why}`);
  return value;
}

/** Options that say something of some kinds of point only, and why they are refused with others. */
const BELONGS: readonly {
  readonly option: keyof PointOptions;
  readonly flag: string;
  readonly to: readonly (keyof PointOptions)[];
  readonly hint: string;
}[] = [
  {
    option: 'uncertainty',
    flag: '--uncertainty',
    to: ['ice', 'boiling', 'reading'],
    hint: 'that of a salt is worked out from --at-uncertainty and --apart',
  },
  { option: 'unit', flag: '--unit', to: ['reading'], hint: 'the value of a fixed point is known' },
  { option: 'at', flag: '--at', to: ['salt', 'reading'], hint: 'it is the temperature of a jar or chamber' },
  { option: 'atUncertainty', flag: '--at-uncertainty', to: ['salt'], hint: 'it belongs to the jar' },
  { option: 'apart', flag: '--apart', to: ['salt'], hint: 'it belongs to the jar' },
];

function requireBelonging(flags: PointOptions, kind: keyof PointOptions): void {
  for (const { option, flag, to, hint } of BELONGS)
    if (flags[option] !== undefined && !to.includes(kind))
      throw new SandlarderError(
        'WRONG_USAGE',
        `${flag}: expected only with ${to.map((name) => `--${name}`).join(' or ')}, got it with --${kind}: ${hint}`,
      );
}

/** Exactly one kind of point, with what belongs to it. */
export function pointBody(flags: PointOptions): Record<string, unknown> {
  const kinds = (['ice', 'boiling', 'salt', 'reading'] as const).filter(
    (kind) => flags[kind] !== undefined && flags[kind] !== false,
  );
  const [kind] = kinds;
  if (kind === undefined || kinds.length !== 1)
    throw new SandlarderError(
      'WRONG_USAGE',
      `expected one of --ice, --boiling, --salt and --reading, got ${kinds.length === 0 ? 'none' : 'several'}`,
    );
  requireBelonging(flags, kind);
  const uncertainty = numberOf('--uncertainty', flags.uncertainty);
  switch (kind) {
    case 'ice':
      return { source: 'ice-point', ...(uncertainty !== undefined && { uncertainty }) };
    case 'boiling':
      return {
        source: 'boiling-point',
        pressure_hPa: needed('--boiling', flags.boiling, 'with the air pressure in hPa'),
        pressureUncertainty_hPa: uncertainty ?? PRESSURE_hPa,
      };
    case 'salt':
      return saltBody(flags);
    case 'reading':
      return readingBody(flags);
  }
}

function readingBody({ reading, uncertainty, unit, at }: PointOptions): Record<string, unknown> {
  const temperature_C = numberOf('--at', at);
  const why = 'with the standard uncertainty (k = 1) of the reference';
  return {
    source: 'instrument',
    reference: needed('--reading', reading, 'with what the reference shows'),
    uncertainty: needed('--uncertainty', uncertainty, why),
    ...(unit !== undefined && { unit }),
    ...(temperature_C !== undefined && { temperature_C }),
  };
}

function saltBody({ salt, at, atUncertainty, apart }: PointOptions): Record<string, unknown> {
  const probeDifference_C = numberOf('--apart', apart);
  return {
    ...{ source: 'salt', salt, temperature_C: needed('--at', at, 'with the temperature of the jar in °C') },
    temperatureUncertainty_C: numberOf('--at-uncertainty', atUncertainty) ?? JAR_C,
    ...(probeDifference_C !== undefined && { probeDifference_C }),
  };
}
