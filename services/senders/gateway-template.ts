/**
 * Fills what an operator wrote for a gateway with what is to be sent. A field stands in double angle brackets:
 * `<<text>>`. What is filled in is escaped for its place and is never read as a field or as structure itself.
 */
import { SandlarderError } from '../core/errors.js';

/**
 * - `to`: the receiver's number as +260970000000; `digits`: the same without the plus
 * - `text`: the message; `parts`: into how many short messages it is split
 * - `key`: the same for every attempt at a message, another for any other
 * - `from`: the sender's name or number, from the settings
 */
export const TEMPLATE_FIELDS = ['to', 'digits', 'text', 'key', 'from', 'parts'] as const;
export type TemplateField = (typeof TEMPLATE_FIELDS)[number];
export type TemplateValues = Readonly<Record<TemplateField, string>>;

export type Json = string | number | boolean | null | readonly Json[] | { readonly [name: string]: Json };

const FIELD = /<<(.*?)>>/gs;

const isField = (name: string): name is TemplateField =>
  (TEMPLATE_FIELDS as readonly string[]).includes(name);

/**
 * The fields of a template.
 *
 * @param name of the setting, for the message
 * @throws SandlarderError WRONG_USAGE for a field that is none, or brackets that do not close
 */
export function fieldsOf(name: string, template: string): TemplateField[] {
  const known = TEMPLATE_FIELDS.map((field) => `<<${field}>>`).join(', ');
  const refuse = (got: string): never => {
    throw new SandlarderError('WRONG_USAGE', `sms gateway: ${name}: expected one of ${known}, got ${got}`);
  };
  if (template.replace(FIELD, '').includes('<<')) refuse('"<<" without ">>"');
  return Array.from(template.matchAll(FIELD), ([, field = '']) =>
    isField(field) ? field : refuse(JSON.stringify(`<<${field.slice(0, 40)}>>`)),
  );
}

function fill(template: string, values: TemplateValues, written: (value: string) => string): string {
  return template.replace(FIELD, (whole, field: string) => (isField(field) ? written(values[field]) : whole));
}

/** Plain text, headers and the values of a form: escaped by what they are handed to, or not at all. */
export const fillText = (template: string, values: TemplateValues): string =>
  fill(template, values, (value) => value);

/** RFC 3986 section 2.1: a value is one part of a path or a query, whatever is in it. */
export const fillUrl = (template: string, values: TemplateValues): string =>
  fill(template, values, encodeURIComponent);

/** Strings are filled; JSON.stringify escapes them. A string that is `<<parts>>` and nothing else is a number. */
export function fillJson(template: Json, values: TemplateValues): Json {
  if (template === '<<parts>>') return Number(values.parts);
  if (typeof template === 'string') return fillText(template, values);
  if (Array.isArray(template)) return template.map((item: Json) => fillJson(item, values));
  if (typeof template !== 'object' || template === null) return template;
  return Object.fromEntries(
    Object.entries(template).map(([name, value]) => [name, fillJson(value as Json, values)]),
  );
}

/** All texts that are values in a JSON value. */
export function leavesOf(template: Json | undefined): string[] {
  if (typeof template === 'string') return [template];
  if (typeof template !== 'object' || template === null) return [];
  return Object.values(template).flatMap((value: Json) => leavesOf(value));
}

/** All names of the fields in a JSON value. */
export function namesOf(template: Json | undefined): string[] {
  if (typeof template !== 'object' || template === null) return [];
  const inner = Object.values(template).flatMap((value: Json) => namesOf(value));
  return Array.isArray(template) ? inner : [...Object.keys(template), ...inner];
}
