/** What is typed of a sand, as it is typed, and what was measured by it. */
import type { SandMeasured, SieveWeighed } from '../../api/types/sand.js';
import { NotAsExpected } from '../../parts/form.js';
import { typedNumber } from '../../parts/typed-number.js';
import { say } from '../../words/say.js';

export interface TypedSand {
  readonly sieving: boolean;
  readonly weighing: boolean;
  readonly warmth: boolean;
  readonly sieves: readonly { readonly sieve: string; readonly retained: string }[];
  readonly pan: string;
  readonly total: string;
  readonly wet: string;
  readonly dried: readonly string[];
  readonly container: string;
  readonly resolution: string;
  readonly way: 'pan' | 'oven';
  readonly sand_C: string;
  readonly shade_C: string;
  readonly shape: 'layer' | 'block';
  readonly thickness: string;
  readonly length: string;
  readonly width: string;
  readonly height: string;
  readonly bed: string;
  readonly note: string;
}

export const EMPTY_SIEVE = { sieve: '', retained: '' } as const;

export const EMPTY_SAND: TypedSand = {
  ...{ sieving: false, weighing: false, warmth: false },
  ...{ sieves: [EMPTY_SIEVE, EMPTY_SIEVE], pan: '', total: '' },
  ...{ wet: '', dried: ['', ''], container: '', resolution: '0.1', way: 'pan' },
  ...{ sand_C: '', shade_C: '', shape: 'layer', thickness: '', length: '', width: '', height: '' },
  ...{ bed: '', note: '' },
};

type Wrongs = Record<string, string>;

/** @throws NotAsExpected with every field that is not, by its pointer in the body */
export function measuredOf(typed: TypedSand): SandMeasured {
  const wrongs: Wrongs = {};
  if (!typed.sieving && !typed.weighing && !typed.warmth)
    throw new NotAsExpected({ measured: say('sand.expectedSomething') });
  const measured: SandMeasured = {
    ...(typed.sieving ? { sieving: sievingOf(typed, wrongs) } : {}),
    ...(typed.weighing ? { weighing: weighingOf(typed, wrongs) } : {}),
    ...(typed.warmth ? { warmth: warmthOf(typed, wrongs) } : {}),
  };
  if (Object.keys(wrongs).length > 0) throw new NotAsExpected(wrongs);
  return measured;
}

/** Rows in which nothing stands are left out. */
function sievingOf({ sieves, pan, total }: TypedSand, wrongs: Wrongs): NonNullable<SandMeasured['sieving']> {
  const filled = sieves
    .map((row, index) => ({ ...row, index }))
    .filter(({ sieve, retained }) => sieve + retained !== '');
  if (filled.length < 2) wrongs['sieving/sieves'] = say('sand.expectedTwoSieves');
  return {
    sieves: filled.map(({ sieve, retained, index }): SieveWeighed => {
      const retained_g = mass(`sieving/sieves/${index}/retained_g`, retained, wrongs, '250');
      return { ...sieveOf(sieve, index, wrongs), retained_g };
    }),
    pan_g: mass('sieving/pan_g', pan, wrongs, '10'),
    ...(total.trim() === ''
      ? {}
      : { total_g: above0('sieving/total_g', total, wrongs, 'sand.expectedMoreMass', '1000') }),
  };
}

function sieveOf(text: string, index: number, wrongs: Wrongs): { opening_mm: number } | { number: number } {
  const [, numbered] = /^no\.?\s*(\d+)$/i.exec(text.trim()) ?? [];
  if (numbered !== undefined) return { number: Number(numbered) };
  const opening_mm = typedNumber(text);
  if (opening_mm !== undefined && opening_mm > 0) return { opening_mm };
  wrongs[`sieving/sieves/${index}/opening_mm`] = say('sand.expectedSieve');
  return { opening_mm: 1 };
}

function weighingOf(typed: TypedSand, wrongs: Wrongs): NonNullable<SandMeasured['weighing']> {
  const dried = typed.dried.filter((text, index) => index === 0 || text.trim() !== '');
  const masses = dried.map((text, index) => mass(`weighing/dried/${index}`, text, wrongs, '801.0'));
  return {
    wet_g: mass('weighing/wet_g', typed.wet, wrongs, '804.1'),
    dry_g: masses.at(-1) ?? 0,
    ...(masses.length > 1 ? { driedBefore_g: masses.slice(0, -1) } : {}),
    container_g: mass('weighing/container_g', typed.container, wrongs, '300'),
    resolution_g: above0('weighing/resolution_g', typed.resolution, wrongs, 'sand.expectedMoreMass', '0.1'),
    way: typed.way,
  };
}

function warmthOf(typed: TypedSand, wrongs: Wrongs): NonNullable<SandMeasured['warmth']> {
  const side = (name: 'thickness' | 'length' | 'width' | 'height', example: string): number =>
    above0(`warmth/body/${name}_cm`, typed[name], wrongs, 'sand.expectedLength', example);
  return {
    sand_C: degrees('warmth/sand_C', typed.sand_C, wrongs, '27'),
    shadeMean_C: degrees('warmth/shadeMean_C', typed.shade_C, wrongs, '22'),
    body:
      typed.shape === 'layer'
        ? { shape: 'layer', thickness_cm: side('thickness', '10') }
        : {
            shape: 'block',
            length_cm: side('length', '150'),
            width_cm: side('width', '60'),
            height_cm: side('height', '50'),
          },
  };
}

function mass(name: string, text: string, wrongs: Wrongs, example: string): number {
  const value = typedNumber(text);
  if (value !== undefined && value >= 0) return value;
  wrongs[name] = say('sand.expectedMass', { example });
  return 0;
}

function above0(
  name: string,
  text: string,
  wrongs: Wrongs,
  key: 'sand.expectedMoreMass' | 'sand.expectedLength',
  example: string,
): number {
  const value = typedNumber(text);
  if (value !== undefined && value > 0) return value;
  wrongs[name] = say(key, { example });
  return 1;
}

function degrees(name: string, text: string, wrongs: Wrongs, example: string): number {
  const value = typedNumber(text);
  if (value !== undefined && Number.isFinite(value)) return value;
  wrongs[name] = say('sand.expectedDegrees', { example });
  return 0;
}
