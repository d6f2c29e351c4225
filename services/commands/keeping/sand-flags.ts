/** Measurements of sand from flags or a file, as they are written on a technician's sheet. */
import { SandlarderError } from '../../core/errors.js';
import { DRYING_WAYS, type Sieving } from '../../core/model/sand-samples.js';
import { textOf } from '../../files.js';
import { readNumber } from '../numbers.js';
import { sievesFromCsv } from './sand-csv.js';

export interface SandFlags {
  readonly sieve?: readonly string[];
  readonly pan?: string;
  readonly sample?: string;
  readonly sieves?: string;
  readonly wet?: string;
  readonly dry?: readonly string[];
  readonly container?: string;
  readonly balanceStep?: string;
  readonly way?: string;
  readonly sandTemperature?: string;
  readonly shade?: string;
  readonly layer?: string;
  readonly block?: string;
}

const MASS_g = { low: 0, high: 100_000 } as const;
const STEP_g = { usual: '0.1', low: 1e-6, high: 100 } as const;
const USUAL_LAYER_cm = '10';

const wrong = (message: string): SandlarderError => new SandlarderError('WRONG_USAGE', message);

const mass = (flag: string, text: string): number => readNumber(flag, text, MASS_g.low, MASS_g.high);

/** @throws SandlarderError WRONG_USAGE */
export function sandFromFlags(flags: SandFlags): Readonly<Record<string, unknown>> {
  const [samples, warmth] = [samplesFromFlags(flags), warmthFrom(flags)];
  if (Object.keys(samples).length === 0 && !warmth)
    throw wrong(
      'sand: expected --sieve and --pan or --sieves FILE, --wet, --dry and --container, or --sand-temperature and --shade, got none',
    );
  return { ...samples, ...(warmth && { warmth }) };
}

/**
 * What was sieved and weighed; nothing where no flag says so.
 *
 * @throws SandlarderError WRONG_USAGE
 */
export function samplesFromFlags(flags: SandFlags): Readonly<Record<string, unknown>> {
  const sieving = sievingFrom(flags);
  return { ...(sieving && { sieving }), ...weighingFrom(flags) };
}

function sievingFrom({ sieve, pan, sample, sieves: file }: SandFlags): Sieving | undefined {
  const total = sample === undefined ? {} : { total_g: readNumber('--sample', sample, 1e-6, MASS_g.high) };
  if (file !== undefined) {
    if (sieve !== undefined || pan !== undefined)
      throw wrong('--sieves: expected either a file or --sieve and --pan, got both');
    return { ...sievesFromCsv(file, textOf(file, { flag: '--sieves' })), ...total };
  }
  if (sieve === undefined && pan === undefined && sample === undefined) return undefined;
  if (!(sieve !== undefined && sieve.length >= 2))
    throw wrong(`--sieve: expected at least two such as 2:12.1, got ${sieve?.length ?? 'none'}`);
  if (pan === undefined) throw wrong('--pan: expected the grams in the pan beside --sieve, got none');
  return { sieves: sieve.map(sieveOf), pan_g: mass('--pan', pan), ...total };
}

/** `2:12.1`: the opening in mm and the grams on it; `no40:12.1` a sieve by its number. */
function sieveOf(text: string): Sieving['sieves'][number] {
  const [, number, opening, grams] = /^(?:no\.?(\d{1,3})|([\d.]+)):([\d.]+)$/i.exec(text.trim()) ?? [];
  if (grams === undefined)
    throw wrong(
      `--sieve: expected OPENING:GRAMS such as 0.5:220, or no35:220 by its number, got ${JSON.stringify(text)}`,
    );
  const retained_g = mass('--sieve', grams);
  return number === undefined
    ? { opening_mm: readNumber('--sieve', opening ?? '', 0.001, 200), retained_g }
    : { number: Number(number), retained_g };
}

function weighingFrom({ wet, dry, container, balanceStep, way }: SandFlags) {
  if ([wet, dry, container, balanceStep, way].every((flag) => flag === undefined)) return undefined;
  if (wet === undefined || dry === undefined || container === undefined)
    throw wrong(
      '--wet, --dry and --container: expected all three, in g with the container, got some of them',
    );
  const dried = dry.map((text) => mass('--dry', text));
  const how = DRYING_WAYS.find((one) => one === (way ?? 'pan'));
  if (!how) throw wrong(`--way: expected ${DRYING_WAYS.join(' or ')}, got ${JSON.stringify(way)}`);
  return {
    weighing: {
      ...{
        wet_g: mass('--wet', wet),
        dry_g: dried.at(-1) ?? Number.NaN,
        container_g: mass('--container', container),
      },
      resolution_g: readNumber('--balance-step', balanceStep ?? STEP_g.usual, STEP_g.low, STEP_g.high),
      way: how,
      ...(dried.length > 1 && { driedBefore_g: dried.slice(0, -1) }),
    },
  };
}

function warmthFrom({ sandTemperature, shade, layer, block }: SandFlags) {
  if ([sandTemperature, shade, layer, block].every((flag) => flag === undefined)) return undefined;
  if (sandTemperature === undefined || shade === undefined)
    throw wrong('--sand-temperature and --shade: expected both, got one of them');
  if (layer !== undefined && block !== undefined) throw wrong('--layer: expected it or --block, got both');
  return {
    sand_C: readNumber('--sand-temperature', sandTemperature, -20, 90),
    shadeMean_C: readNumber('--shade', shade, -20, 60),
    body:
      block === undefined
        ? { shape: 'layer', thickness_cm: readNumber('--layer', layer ?? USUAL_LAYER_cm, 1, 500) }
        : blockOf(block),
  };
}

function blockOf(text: string) {
  const sides = text.split(/[x×]/i);
  if (sides.length !== 3)
    throw wrong(`--block: expected LENGTHxWIDTHxHEIGHT in cm, got ${JSON.stringify(text)}`);
  const [length_cm, width_cm, height_cm] = sides.map((side) => readNumber('--block', side, 1, 500));
  return { shape: 'block', length_cm, width_cm, height_cm };
}
