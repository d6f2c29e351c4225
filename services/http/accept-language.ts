/** The language of an answer: the one that is asked for in the address, or the best of those that the asker reads. */
import type { FastifyReply, FastifyRequest } from 'fastify';
import { LANGUAGES } from '../core/alarms/languages/index.js';
import type { Language } from '../core/model/languages.js';

const CODES: readonly string[] = LANGUAGES.map(({ language }) => language);

/** Ranges of one header that are read: a browser sends some five. */
const MOST_RANGES = 20;

interface Range {
  readonly tag: string;
  readonly weight: number;
}

/** One language range with its weight [RFC 9110 12.5.4, 12.4.2]; undefined for what is none. */
function rangeOf(text: string): Range | undefined {
  const [, tag = '', weight = '1'] =
    /^\s*([a-z]{1,8}(?:-[a-z0-9]{1,8})*)\s*(?:;\s*q=(0(?:\.\d{0,3})?|1(?:\.0{0,3})?)\s*)?$/i.exec(text) ?? [];
  return tag === '' ? undefined : { tag, weight: Number(weight) };
}

const codeOf = (tag: string): string => tag.toLowerCase().split('-')[0] ?? '';
const isLanguage = (code: string): code is Language => CODES.includes(code);

function accepted(header: string): Language[] {
  return header
    .split(',', MOST_RANGES)
    .flatMap((text) => rangeOf(text) ?? [])
    .filter(({ weight }) => weight > 0)
    .sort((one, other) => other.weight - one.weight)
    .map(({ tag }) => codeOf(tag))
    .filter(isLanguage);
}

/** English where none of them is spoken here. @param asked a tag such as `sw` or `fr-CM` */
export function languageFor(asked: string | undefined, header: string | undefined): Language {
  if (asked === undefined) return accepted(header ?? '')[0] ?? 'en';
  const code = codeOf(asked);
  return isLanguage(code) ? code : 'en';
}

/** The same of a request; says in the answer that it depends on it. */
export function languageOf(
  request: Pick<FastifyRequest, 'headers'> & { readonly query: { readonly language?: string | undefined } },
  reply: Pick<FastifyReply, 'header'>,
): Language {
  reply.header('vary', 'Accept-Language');
  return languageFor(request.query.language, request.headers['accept-language']);
}
