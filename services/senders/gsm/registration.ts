/** Network and signal: AT+CREG, AT+CEREG, AT+CSQ of 3GPP TS 27.007 sections 7.2, 10.1.22 and 8.5. */
import type { AtChannel } from './at-channel.js';
import { AtError } from './at-error.js';

/** <stat>: 1 home, 5 roaming; 6 and 7 the same, for short messages only. */
const REGISTERED: readonly number[] = [1, 5, 6, 7];
const DENIED = 3;

/** A command that a modem need not know: undefined where it refuses. */
export async function tolerant(
  channel: AtChannel,
  command: string,
  expect?: string,
): Promise<readonly string[] | undefined> {
  try {
    return await channel.command(command, expect === undefined ? {} : { expect });
  } catch (error) {
    if (error instanceof AtError && error.failure === 'refused') return undefined;
    throw error;
  }
}

export interface Registration {
  readonly registered: boolean;
  readonly note?: string;
}

/** Registered in either the GSM or UMTS network (CREG) or the LTE network (CEREG) will do. */
export async function readRegistration(channel: AtChannel): Promise<Registration> {
  const states: number[] = [];
  for (const name of ['+CREG', '+CEREG']) {
    const lines = (await tolerant(channel, `AT${name}?`, `${name}:`)) ?? [];
    const match = lines.map((line) => /^\+CE?REG: ?[0-9] ?, ?([0-9]+)/.exec(line)).find((found) => found);
    if (match) states.push(Number(match[1]));
  }
  if (states.some((state) => REGISTERED.includes(state))) return { registered: true };
  if (states.includes(DENIED)) return { registered: false, note: 'The network refuses this SIM.' };
  return { registered: false, note: 'No network found.' };
}

/**
 * <rssi> of AT+CSQ in dBm: 0 is -113 or less, 31 is -51 or more, 2 dB a step.
 *
 * @returns undefined for 99, not known, and for what the table lacks
 */
export function signalOf(rssi: number): number | undefined {
  return Number.isInteger(rssi) && rssi >= 0 && rssi <= 31 ? -113 + 2 * rssi : undefined;
}

/** @returns dBm; undefined where the modem does not know */
export async function readSignal(channel: AtChannel): Promise<number | undefined> {
  const lines = (await tolerant(channel, 'AT+CSQ', '+CSQ:')) ?? [];
  const match = lines.map((line) => /^\+CSQ: ?([0-9]+)/.exec(line)).find((found) => found);
  return match ? signalOf(Number(match[1])) : undefined;
}
