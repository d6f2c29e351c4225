/** How the sites of many edge machines are divided at a centre: by a hash of the site's id, so that nothing need be looked up. */

/** Partitions of a centre. Each is a data folder and a session at the broker, so that thousands would be idle work. */
export const PARTITIONS = { least: 1, usual: 12, most: 1000 } as const;

/** FNV-1a of 32 bits [draft-eastlake-fnv-17]: its offset basis and prime. */
const FNV_BASIS = 0x811c9dc5;
const FNV_PRIME = 0x01000193;

function fnv1a(text: string): number {
  let hash = FNV_BASIS;
  for (let index = 0; index < text.length; index += 1)
    hash = Math.imul(hash ^ text.charCodeAt(index), FNV_PRIME);
  return hash >>> 0;
}

/** Mixes all bits into the low ones, which decide: ids often differ in their last character only (MurmurHash3, fmix32). */
function mixed(hash: number): number {
  let bits = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
  return (bits ^ (bits >>> 16)) >>> 0;
}

/**
 * The partition of a site, from 0. It is the same in every version of the program: bridges of edge machines hold it.
 *
 * @param site id of the site: characters of ASCII alone
 */
export const partitionOf = (site: string, partitions: number): number => mixed(fnv1a(site)) % partitions;

/** `p007`: the name of its folder, and in its topics. */
export const partitionName = (partition: number): string => `p${String(partition).padStart(3, '0')}`;

/** What stands before the topics of a partition at the centre's broker. */
export const partitionPrefix = (group: string, partition: number): string =>
  `sandlarder-centre/${group}/${partitionName(partition)}/`;

/** The name of its session at the centre's broker, which one client at a time may have [MQTT-3.1.4-2]. */
export const partitionSession = (group: string, partition: number): string =>
  `sandlarder-${group}-${partitionName(partition)}`;
