/** Reads the short message of a person that a gateway hands to us, in whatever form it has. */
import { z } from 'zod';
import { SandlarderError } from '../core/errors.js';
import { parsePath, valueAt } from './json-path.js';

/** Where the sender's number and the text stand: paths into JSON, or names of fields. */
export const receiveSchema = z.strictObject({
  in: z.enum(['json', 'form', 'query']),
  from: z.string().min(1),
  text: z.string().min(1),
});
export type GatewayReceive = z.output<typeof receiveSchema>;

export interface ReceivedText {
  /** As +260970000000 where it is an international number, else as it came: a short code, a name. */
  readonly from: string;
  readonly text: string;
}

/** Of what is handed in, bytes: a long message of 255 parts is less. */
const MOST_bytes = 65_536;

const refuse = (reason: string, cause?: unknown): never => {
  throw new SandlarderError('BAD_REQUEST', `sms gateway: ${reason}`, { cause });
};

/**
 * Spaces and marks go, a leading 00 is a plus. Bare digits are taken for an international number whose plus was
 * lost: gateways leave it out, and an unescaped plus in a form is a blank. A national number begins with 0 and stays.
 */
function numberFrom(text: string): string {
  const bare = text.replace(/[\s().-]/g, '').replace(/^00/, '+');
  return /^\+?[1-9]\d{6,14}$/.test(bare) ? `+${bare.replace('+', '')}` : text.trim();
}

/** A field that comes twice is refused: of two readers each might take another. */
function fieldOf(input: string, name: string): unknown {
  const values = new URLSearchParams(input).getAll(name);
  return values.length > 1
    ? refuse(`expected the field ${name} once, got it ${values.length} times`)
    : values[0];
}

function parseJson(input: string): unknown {
  try {
    return JSON.parse(input);
  } catch (error) {
    return refuse('expected JSON', error);
  }
}

/** Some write numbers as numbers. */
function textFrom(name: string, value: unknown, where: string): string {
  if (typeof value === 'number' && Number.isSafeInteger(value)) return String(value);
  return typeof value === 'string'
    ? value
    : refuse(
        `expected a text at ${name} of the ${where}, got ${value === undefined ? 'none' : typeof value}`,
      );
}

/**
 * Reads a message that a gateway hands over.
 *
 * @param input the body of the request, or its query, with or without the question mark
 * @throws SandlarderError BAD_REQUEST where it is longer than 64 KiB or holds no sender or text
 */
export function readGatewayMessage(receive: GatewayReceive, input: string): ReceivedText {
  const bytes = Buffer.byteLength(input);
  if (!(bytes <= MOST_bytes)) refuse(`expected at most ${MOST_bytes} bytes, got ${bytes}`);
  const json = receive.in === 'json' ? parseJson(input) : undefined;
  const read = (name: string): string =>
    textFrom(name, receive.in === 'json' ? valueAt(json, parsePath(name)) : fieldOf(input, name), receive.in);
  const from = numberFrom(read(receive.from));
  if (from === '') refuse(`expected a sender at ${receive.from}, got an empty one`);
  return { from, text: read(receive.text) };
}
