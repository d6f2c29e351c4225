/** What the figures were measured on. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { cpus, totalmem } from 'node:os';
import { dirname, join } from 'node:path';

const PACKAGES = ['aedes', 'better-sqlite3', 'influx', 'mqtt', 'zod'];

export interface Machine {
  readonly date: string;
  readonly processor: string;
  readonly cores: number;
  readonly memory_GiB: number;
  readonly system: string;
  readonly node: string;
  readonly packages: Readonly<Record<string, string>>;
}

export function machineNow(): Machine {
  const cores = cpus();
  return {
    date: new Date().toISOString(),
    processor: cores[0]?.model ?? 'unknown',
    cores: cores.length,
    memory_GiB: Math.round(totalmem() / 2 ** 30),
    system: `${process.platform} ${process.arch}`,
    node: process.version,
    packages: Object.fromEntries(PACKAGES.map((name) => [name, versionOf(name)])),
  };
}

/** From the nearest package.json of that name above what an import of it would load. */
function versionOf(name: string): string {
  let directory = dirname(createRequire(import.meta.url).resolve(name));
  for (; directory !== dirname(directory); directory = dirname(directory)) {
    const description = describedIn(directory);
    if (description?.name === name) return description.version;
  }
  throw new Error(`expected the package.json of ${name}, got none`);
}

function describedIn(directory: string): { name: string; version: string } | undefined {
  try {
    return JSON.parse(readFileSync(join(directory, 'package.json'), 'utf8'));
  } catch {
    return undefined;
  }
}

export function describeMachine({
  date,
  processor,
  cores,
  memory_GiB,
  system,
  node,
  packages,
}: Machine): string {
  const versions = Object.entries(packages).map(([name, version]) => `${name} ${version}`);
  return `${date}, ${cores} x ${processor}, ${memory_GiB} GiB, ${system}, Node.js ${node}, ${versions.join(', ')}`;
}
