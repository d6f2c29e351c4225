/**
 * What a schema refused, as one sentence: which key, what was expected, what was there.
 */
import type { z } from 'zod';

/** Characters of a refused value that are repeated in a message. */
const SHOWN_characters = 80;

type Issue = z.core.$ZodIssue;

/** `probes[1].placements[0].depth`; the document itself where the path is empty. */
export function keyOf(path: readonly PropertyKey[]): string {
  const key = path
    .map((part) => (typeof part === 'number' ? `[${part}]` : `.${String(part)}`))
    .join('')
    .replace(/^\./, '');
  return key === '' ? 'the document' : key;
}

const asJson = (value: unknown): string => JSON.stringify(value) ?? String(value);

/** A value as JSON, cut short; NaN and infinity, which JSON does not have, by their names. */
export function shown(value: unknown): string {
  const text = value === undefined ? 'nothing' : typeof value === 'number' ? String(value) : asJson(value);
  return text.length > SHOWN_characters ? `${text.slice(0, SHOWN_characters)}…` : text;
}

/** What was expected, without what was there. */
export function expectedWords(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return `expected ${TYPE_WORDS[issue.expected] ?? issue.expected}`;
    case 'invalid_format':
      return FORMAT_WORDS[issue.format] ?? issue.message;
    case 'invalid_union':
      return 'options' in issue && issue.options
        ? `expected ${issue.options.map((value) => shown(value)).join(' or ')}`
        : issue.message === UNSAID
          ? waysWords(issue.errors)
          : issue.message;
    case 'too_small':
      return `expected ${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}${countOf(issue.origin)}`;
    case 'too_big':
      return `expected ${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}${countOf(issue.origin)}`;
    case 'invalid_value':
      return `expected ${issue.values.map((value) => shown(value)).join(' or ')}`;
    case 'unrecognized_keys':
      return `expected no key ${issue.keys.map((key) => shown(key)).join(', ')}`;
    default:
      return issue.message;
  }
}

/** What zod says where the schema has no words of its own. */
const UNSAID = 'Invalid input';

/** Of what may be one thing or another: each, as far as it is told in a word. */
function waysWords(ways: readonly (readonly Issue[])[]): string {
  const words = ways.flatMap(([first]) =>
    first && first.path.length === 0 ? [expectedWords(first).replace(/^expected /, '')] : [],
  );
  if (words.length > 0) return `expected ${[...new Set(words)].join(' or ')}`;
  const deeper = ways.at(-1)?.[0];
  return deeper ? `${keyOf(deeper.path)}: ${expectedWords(deeper)}` : 'expected something else';
}

/** Where the name of a type in the schema is no word of a reader's. */
const TYPE_WORDS: Readonly<Record<string, string>> = { int: 'integer' };

const FORMAT_WORDS: Readonly<Record<string, string>> = { date: 'expected a date such as 2026-03-01' };

const countOf = (origin: string): string =>
  origin === 'string' ? ' characters' : origin === 'array' ? ' entries' : '';

/** What was there. Of a choice by one key that is the value of the key, not all that it stands in. */
function inputOf(issue: Issue): unknown {
  const { input } = issue;
  if (issue.code !== 'invalid_union' || issue.discriminator === undefined) return input;
  return typeof input === 'object' && input !== null
    ? (input as Readonly<Record<string, unknown>>)[issue.discriminator]
    : input;
}

/** One issue in words, without its key. The schema must have been run with `reportInput`. */
export function issueWords(issue: Issue): string {
  const wanted = expectedWords(issue);
  const tellsItself = issue.code === 'unrecognized_keys' || wanted.includes(', got ');
  return tellsItself ? wanted : `${wanted}, got ${shown(inputOf(issue))}`;
}

/** One issue as a sentence. The schema must have been run with `reportInput`. */
export const describeIssue = (issue: Issue): string => `${keyOf(issue.path)}: ${issueWords(issue)}`;
