/**
 * What one must know before sand is sieved, dried, carried and filled in. One or two plain sentences each.
 *
 * That fine quartz dust harms lungs for good: from memory (silicosis; IARC group 1). The rest: common practice, no
 * source.
 */
import { DIGGING_CAUTION } from '../alarms/cautions.js';

export const SAND_CAUTIONS = {
  dust:
    'Dust of dry sand harms the lungs for good, and the finest of it is not seen: wear a close-fitting mask, work with ' +
    'the wind at your back, and keep children away.',
  lifting:
    'Ten litres of dry sand weigh about 16 kg: fill buckets half, lift with straight back and bent knees, and let two ' +
    'carry what is heavy.',
  fire:
    'Make the fire on bare ground, away from straw, thatch and fuel, with water at hand, and do not leave it before it ' +
    'is out.',
  'hot-pan':
    'A pan of sand stays hot long after the fire: use gloves and a handle, stir gently since grains jump, and let it cool ' +
    'before it is weighed.',
  'burning-smell':
    'If the sand smells of burning or smokes, it holds plant matter: take it off the fire, do not breathe the smoke, and ' +
    'do not trust the weighing, which comes out too wet.',
  digging: DIGGING_CAUTION,
} as const satisfies Readonly<Record<string, string>>;

export type SandCautionKey = keyof typeof SAND_CAUTIONS;

export const SAND_WORKS = [
  'sieving',
  'drying in a pan',
  'drying in the sun',
  'filling a box',
  'filling a pit',
] as const;
export type SandWork = (typeof SAND_WORKS)[number];

const OF_WORK: Readonly<Record<SandWork, readonly SandCautionKey[]>> = {
  sieving: ['dust', 'lifting'],
  'drying in a pan': ['fire', 'hot-pan', 'burning-smell'],
  'drying in the sun': ['dust', 'lifting'],
  'filling a box': ['dust', 'lifting'],
  'filling a pit': ['digging', 'dust', 'lifting'],
};

/** The cautions of a work, what is particular to it first. */
export const sandCautions = (work: SandWork): string[] => OF_WORK[work].map((key) => SAND_CAUTIONS[key]);
