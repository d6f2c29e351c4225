/** Starts the built program as its users do, and waits for what it says. It ends when it is told to. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** The built program, seen from the sources and from the build. */
const MAIN = ['../../.build/program/main.js', '../../program/main.js']
  .map((path) => fileURLToPath(new URL(path, import.meta.url)))
  .find(existsSync);

/** @throws Error where nothing is built */
export function mainFile(): string {
  if (MAIN === undefined) throw new Error('expected the built program, got none: run "npm run build" first');
  return MAIN;
}

export interface Running {
  readonly process: ChildProcess;
  /** All that it wrote so far, both streams. */
  output(): string;
  /** Waits until the pattern has been written; rejects where the process ends first. */
  said(pattern: RegExp): Promise<RegExpExecArray>;
  /** Ends it at once, as a power cut would. */
  kill(): Promise<void>;
  /** Waits for its end; null where a signal ended it. */
  ended(): Promise<number | null>;
  /** Asks it to stop, and waits. */
  stop(): Promise<number | null>;
}

/**
 * Ends when it is told to.
 *
 * @param through a command that runs it in its own place, such as within another namespace
 */
export function startKept(
  args: readonly string[],
  environment: NodeJS.ProcessEnv = {},
  through: readonly string[] = [],
): Running {
  const [program = '', ...rest] = [...through, process.execPath, mainFile(), ...args];
  const child = spawn(program, rest, {
    env: { ...process.env, ...environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  const waiting = new Set<() => void>();
  const heard = (chunk: Buffer): void => {
    output += chunk.toString();
    for (const look of waiting) look();
  };
  child.stdout.on('data', heard);
  child.stderr.on('data', heard);
  const ended = once(child, 'close').then(([code]) => {
    for (const look of waiting) look();
    return code as number | null;
  });
  return {
    process: child,
    output: () => output,
    said: (pattern) =>
      new Promise((resolve, reject) => {
        const look = (): void => {
          const match = pattern.exec(output);
          if (!match && child.exitCode === null && child.signalCode === null) return;
          waiting.delete(look);
          if (match) resolve(match);
          else reject(new Error(`ended before it said ${pattern}: ${output}`));
        };
        waiting.add(look);
        look();
      }),
    ended: () => ended,
    kill: async () => {
      child.kill('SIGKILL');
      await ended;
    },
    stop: async () => {
      child.kill('SIGTERM');
      return ended;
    },
  };
}

/** Runs a command to its end. */
export async function run(
  args: readonly string[],
  environment: NodeJS.ProcessEnv = {},
  through: readonly string[] = [],
): Promise<{ code: number | null; stdout: string; stderr: string }> {
  const [program = '', ...rest] = [...through, process.execPath, mainFile(), ...args];
  const child = spawn(program, rest, {
    env: { ...process.env, ...environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let stdout = '';
  let stderr = '';
  child.stdout.on('data', (chunk: Buffer) => {
    stdout += chunk.toString();
  });
  child.stderr.on('data', (chunk: Buffer) => {
    stderr += chunk.toString();
  });
  const [code] = (await once(child, 'close')) as [number | null];
  return { code, stdout, stderr };
}
