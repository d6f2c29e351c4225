/** Scenarios that come with the program. Site, people and numbers are invented. */
import { existsSync } from 'node:fs';
import { SandlarderError } from '../services/core/errors.js';
import { AIR_FILE_DEFAULTS, type AirFileOptions, meanOf, readAirFile } from './air-file.js';
import { readScenarioFile, type Scenario, type ScenarioInput, scenarioSchema } from './scenario.js';

type Bed = ScenarioInput['beds'][number];

/** A season that begins cool and ends hot, with two hot spells. */
const DRY_SEASON = {
  means: [
    [0, 18.5],
    [40, 17.5],
    [80, 19],
    [120, 22.5],
    [150, 24],
    [200, 25],
  ],
  swing_C: 12,
  dewPoint_C: 9,
  hotSpells: [
    { startDay: 62, days: 6, warmer_C: 4 },
    { startDay: 118, days: 7, warmer_C: 4.5 },
  ],
} as const;

const PIT_STEPS = [
  { length: 150, width: 100, height: 25 },
  { length: 150, width: 60, height: 25 },
];

/** Five probes: four around the deep middle and one above it. Ids go on from a number. */
const pitProbes = (first: number): Bed['probes'] =>
  [
    { x: 40, y: 40, depth: 35 },
    { x: 75, y: 60, depth: 42 },
    { x: 110, y: 40, depth: 35 },
    { x: 50, y: 70, depth: 20 },
    { x: 100, y: 65, depth: 20 },
  ].map((place, index) => ({ id: `p${String(first + index).padStart(2, '0')}`, ...place }));

const pit = (letter: string, first: number): Bed => ({
  id: `pit-${letter}`,
  name: `Pit ${letter.toUpperCase()}`,
  kind: 'stepped-pit',
  steps: PIT_STEPS,
  roots: { count: 400, mass_kg: 110 },
  probes: pitProbes(first),
});

const soundPit = pit('a', 1);

const rotPit: Bed = {
  ...pit('b', 11),
  rots: [{ startDay: 20, x: 62, y: 52, depth: 38, grown_W: 5, growth_days: 6 }],
};

const leakPit: Bed = {
  ...pit('c', 21),
  leak: { startDay: 30, x: 95, y: 55, litres_per_day: 3 },
};

const soundBox: Bed = {
  id: 'box-d',
  name: 'Box D in the hut',
  kind: 'box',
  steps: [{ length: 100, width: 50, height: 75 }],
  roots: { count: 250, mass_kg: 70 },
  probes: [
    { id: 'p31', x: 30, y: 25, depth: 25 },
    { id: 'p32', x: 70, y: 25, depth: 25 },
    { id: 'p33', x: 50, y: 25, depth: 50 },
    { id: 'p34', x: 25, y: 20, depth: 55 },
  ],
};

const seasonOf = (name: string, beds: readonly Bed[]): Scenario =>
  scenarioSchema.parse({
    name,
    site: { id: 'ridge-station', name: 'Ridge station', timezone: 'Africa/Lusaka' },
    days: 150,
    weather: structuredClone(DRY_SEASON),
    deepGround_C: 21,
    beds,
    shade: ['p91'],
  });

const BUILT_IN: Readonly<Record<string, readonly Bed[]>> = {
  'sound-pit': [soundPit],
  'rot-pit': [rotPit],
  'leak-pit': [leakPit],
  'sound-box': [soundBox],
  'demo-site': [soundPit, rotPit, leakPit, soundBox],
};

export const listScenarios = (): string[] => Object.keys(BUILT_IN);

export interface LoadOptions {
  /** CSV of hourly air temperatures to use instead of made-up weather. */
  readonly weatherFile?: string | undefined;
  /** How to read it, where it is otherwise than usual. */
  readonly weather?: Partial<AirFileOptions> | undefined;
}

/**
 * A scenario that comes with the program, by its name, or one of a file.
 *
 * Under the weather of a file, a built-in site stands on ground as warm as that weather's mean; a scenario file
 * says itself how warm its ground is.
 *
 * @throws SandlarderError WRONG_USAGE
 */
export function loadScenario(nameOrFile: string, { weatherFile, weather }: LoadOptions = {}): Scenario {
  const beds = Object.hasOwn(BUILT_IN, nameOrFile) ? BUILT_IN[nameOrFile] : undefined;
  const scenario = beds ? seasonOf(nameOrFile, beds) : ofFile(nameOrFile);
  if (weatherFile === undefined) return scenario;
  const airTemperatures_C = readAirFile(weatherFile, { ...AIR_FILE_DEFAULTS, ...weather });
  return { ...scenario, airTemperatures_C, ...(beds && { deepGround_C: meanOf(airTemperatures_C) }) };
}

function ofFile(file: string): Scenario {
  if (!existsSync(file))
    throw new SandlarderError(
      'WRONG_USAGE',
      `scenario ${file}: expected one of ${listScenarios().join(', ')}, or a file, got neither`,
    );
  return readScenarioFile(file);
}
