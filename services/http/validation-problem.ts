/** From what a schema found wrong with a request to the `errors` of a problem. */
import type { FastifyError } from 'fastify';
import type { Misfit } from '../core/errors.js';
import type { ProblemParts } from './problem.js';
import type { ProblemItem } from './schemas/problem.js';

type Finding = NonNullable<FastifyError['validation']>[number];

/** Findings in one answer: a body of thousands of wrong keys is told of the first few. */
const MOST_FINDINGS = 20;

/** 400 with one item for each finding; undefined for an error that is not about validation. */
export function validationProblem(error: FastifyError): ProblemParts | undefined {
  if (!error.validation) return undefined;
  const inBody = error.validationContext === 'body';
  const errors = error.validation.flatMap((finding) => itemsOf(finding, inBody)).slice(0, MOST_FINDINGS);
  const first = errors[0];
  const where = first?.parameter ?? first?.pointer ?? '#';
  return {
    status: 400,
    code: 'BAD_REQUEST',
    detail: `${inBody ? 'body' : 'address'} is not as described: ${where}: ${first?.detail ?? error.message}`,
    errors,
  };
}

/** An unknown key is named itself; everything else by the place of its value. */
function itemsOf(finding: Finding, inBody: boolean): ProblemItem[] {
  const place = finding.instancePath.replace(/^\//, '');
  const keys = finding.keyword === 'unrecognized_keys' ? finding.params['keys'] : undefined;
  if (!Array.isArray(keys)) return [itemAt(place, finding.message ?? 'not as described', inBody)];
  return keys.map((key) =>
    itemAt(place === '' ? pointerPart(key) : `${place}/${pointerPart(key)}`, 'unknown key', inBody),
  );
}

function itemAt(place: string, detail: string, inBody: boolean): ProblemItem {
  if (!inBody) return { parameter: place, detail };
  return { pointer: place === '' ? '#' : `#/${place}`, detail };
}

/** What is wrong with a body beyond its schema, by the same pointers. */
export const bodyItems = (misfits: readonly Misfit[]): ProblemItem[] =>
  misfits
    .slice(0, MOST_FINDINGS)
    .map(({ path, message }) => itemAt(path.map(pointerPart).join('/'), message, true));

/** A key as a part of a JSON pointer in a URI fragment [RFC 6901 3 and 6]; cut, as it comes from outside. */
function pointerPart(key: unknown): string {
  const text = String(key)
    .slice(0, 100)
    .replace(/\p{Surrogate}/gu, '\uFFFD');
  return encodeURIComponent(text.replaceAll('~', '~0').replaceAll('/', '~1'));
}
