/** Options that many commands take. */
import type { Command } from 'commander';

/** Adds a command, or a part of one. */
export type MakeCommand = (name: string, description: string) => Command;

/** Of whatever asks a running service. */
export const SERVICE = ['--service <url>', 'the running service', 'http://127.0.0.1:8080'] as const;
export const TOKEN_FILE = [
  '--token-file <file>',
  'file of a token to show it; what SANDLARDER_TOKEN says where absent',
] as const;

export const JSON_FLAG = ['--json', 'print the result as JSON'] as const;
