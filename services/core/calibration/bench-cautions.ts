/**
 * What a technician must know before a bath or a salt jar is set up. One or two plain sentences each, shown beside
 * the source that they belong to, never instead of the label on the package or of local rules.
 *
 * Hazards of the salts: their usual classification under the Globally Harmonized System (from memory; the safety
 * sheet of the salt at hand goes first). Handling: common practice, no source.
 */

export type CautionKey =
  | 'salt-dust'
  | 'lithium-chloride'
  | 'nitrate'
  | 'hot-water'
  | 'water-and-mains'
  | 'humidity-sensor-dry'
  | 'local-rules';

/** What stands on the bench. */
export type BenchSource = 'salt' | 'ice' | 'boiling-water' | 'bath';

export const CAUTIONS: Readonly<Record<CautionKey, string>> = {
  'salt-dust':
    'Wear gloves and eye protection, do not breathe salt dust, and wash your hands afterwards. Label every jar, and ' +
    'never use one for food or drink again.',
  'lithium-chloride':
    'Lithium chloride is harmful if swallowed and irritates skin and eyes: keep it locked away from children, ' +
    'animals and everything that is eaten. If some is swallowed, get medical help at once.',
  nitrate:
    'Nitrates make fires burn fiercely: keep them away from heat, flames, fuel, oil, straw and sawdust, and do not ' +
    'let spills dry on cloth, paper or wood.',
  'hot-water':
    'Boiling water and its steam scald: use a pot that stands firmly, keep face and hands out of the steam, and ' +
    'keep children away.',
  'water-and-mains':
    'Keep the mains away from the water: at a bath run the probe from a battery, with its electronics and every ' +
    'plug where nothing can drip or fall in.',
  'humidity-sensor-dry':
    'Only a sealed temperature probe goes into ice or water, within the temperatures its maker allows. Keep a ' +
    'humidity sensor out of water, steam and the salt slush itself.',
  'local-rules':
    'Store, use and throw away salts as the label, the safety sheet and the rules of your place and country say: ' +
    'they go before what is written here.',
};

const OF_SOURCE: Readonly<Record<BenchSource, readonly CautionKey[]>> = {
  salt: ['salt-dust', 'humidity-sensor-dry', 'local-rules'],
  ice: ['water-and-mains', 'humidity-sensor-dry'],
  'boiling-water': ['hot-water', 'water-and-mains', 'humidity-sensor-dry'],
  bath: ['water-and-mains', 'humidity-sensor-dry'],
};

/**
 * The cautions of a source, what is particular to it first, each once.
 *
 * @param own what the salt at hand adds, see `SALTS`
 */
export function benchCautions(source: BenchSource, own: readonly CautionKey[] = []): string[] {
  return [...new Set([...own, ...OF_SOURCE[source]])].map((key) => CAUTIONS[key]);
}
