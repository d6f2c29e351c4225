/**
 * A strict reader of OpenMetrics text, for tests. After the OpenMetrics 1.0 specification [M], section "Text
 * format": order and grammar of lines, suffixes by type, buckets of histograms, end of file.
 */

export interface Sample {
  readonly name: string;
  readonly labels: Readonly<Record<string, string>>;
  readonly value: number;
}
export interface Family {
  readonly type: string;
  readonly help: string;
  readonly samples: Sample[];
}

const NAME = '[a-zA-Z_:][a-zA-Z0-9_:]*';
const LABEL = '[a-zA-Z_][a-zA-Z0-9_]*="(?:[^"\\\\\\n]|\\\\["\\\\n])*"';
const NUMBER = '[+-]?(?:\\d+(?:\\.\\d*)?(?:[eE][+-]?\\d+)?|[iI]nf)|[nN]a[nN]';
const META = new RegExp(`^# (TYPE|HELP|UNIT) (${NAME}) (.+)$`);
const SAMPLE = new RegExp(`^(${NAME})(?:\\{(${LABEL}(?:,${LABEL})*)?\\})? (${NUMBER})$`);

/** The suffixes that samples of a type must have. */
const SUFFIXES: Readonly<Record<string, readonly string[]>> = {
  counter: ['_total'],
  gauge: [''],
  histogram: ['_bucket', '_sum', '_count'],
};

/** @throws Error naming the line, at the first departure from the format */
export function readOpenMetrics(text: string): ReadonlyMap<string, Family> {
  if (!text.endsWith('\n# EOF\n')) throw new Error('expected the text to end with "# EOF" and a line feed');
  const families = new Map<string, Family>();
  let current: { name: string; meta: Map<string, string>; family?: Family } | undefined;
  for (const line of text.slice(0, -'# EOF\n'.length).split('\n').slice(0, -1)) {
    const [, keyword, name, value] = META.exec(line) ?? [];
    if (keyword !== undefined && name !== undefined && value !== undefined) {
      if (current?.name !== name) current = { name, meta: new Map() };
      addMeta(current, keyword, value, line, families);
    } else addSample(current, line);
  }
  for (const [name, family] of families) checkFamily(name, family);
  return families;
}

type Current = { name: string; meta: Map<string, string>; family?: Family };

function addMeta(
  current: Current,
  keyword: string,
  value: string,
  line: string,
  families: Map<string, Family>,
) {
  if (current.family?.samples.length) throw new Error(`metadata after samples: ${line}`);
  if (current.meta.has(keyword)) throw new Error(`metadata twice: ${line}`);
  current.meta.set(keyword, value);
  if (keyword !== 'TYPE') return;
  if (families.has(current.name)) throw new Error(`a family twice or interleaved: ${line}`);
  if (!(value in SUFFIXES)) throw new Error(`a type that is not used here: ${line}`);
  current.family = { type: value, help: current.meta.get('HELP') ?? '', samples: [] };
  families.set(current.name, current.family);
}

function addSample(current: Current | undefined, line: string): void {
  const [, name, labels = '', number] = SAMPLE.exec(line) ?? [];
  if (name === undefined || number === undefined) throw new Error(`no line of OpenMetrics: ${line}`);
  const { family } = current ?? {};
  const suffixes = SUFFIXES[family?.type ?? ''] ?? [];
  if (!family || !suffixes.some((suffix) => name === `${current?.name}${suffix}`))
    throw new Error(`a sample that is not of its family: ${line}`);
  family.samples.push({ name, labels: readLabels(labels, line), value: readNumber(number) });
}

function readLabels(text: string, line: string): Record<string, string> {
  const labels: Record<string, string> = {};
  for (const [pair] of text.matchAll(new RegExp(LABEL, 'g'))) {
    const name = pair.slice(0, pair.indexOf('='));
    if (Object.hasOwn(labels, name)) throw new Error(`a label twice: ${line}`);
    labels[name] = pair.slice(name.length + 2, -1);
  }
  return labels;
}

function readNumber(text: string): number {
  return Number(text.toLowerCase().replace('inf', 'Infinity').replace('nan', 'NaN'));
}

function checkFamily(name: string, { type, samples }: Family): void {
  const keys = samples.map((sample) => `${sample.name}${JSON.stringify(sample.labels)}`);
  if (new Set(keys).size !== keys.length) throw new Error(`${name}: a series twice`);
  if (type === 'counter' && name.endsWith('_total'))
    throw new Error(`${name}: the family is named without _total`);
  if (type !== 'gauge' && samples.some(({ value }) => !(value >= 0)))
    throw new Error(`${name}: a counter below 0`);
  if (type === 'histogram') checkHistogram(name, samples);
}

/** Buckets ascend, hold the ones before them, and the last is +Inf and equals the count. */
function checkHistogram(name: string, samples: readonly Sample[]): void {
  const groups = new Map<string, Sample[]>();
  for (const sample of samples) {
    const { le: _le, ...labels } = sample.labels;
    const key = JSON.stringify(labels);
    groups.set(key, [...(groups.get(key) ?? []), sample]);
  }
  for (const group of groups.values()) {
    const buckets = group.filter((sample) => sample.name === `${name}_bucket`);
    const bounds = buckets.map(({ labels }) => readNumber(labels['le'] ?? 'missing'));
    const count = group.find((sample) => sample.name === `${name}_count`)?.value;
    const ascends = bounds.every((bound, index) => index === 0 || bound > (bounds[index - 1] ?? Number.NaN));
    const holds = buckets.every(
      ({ value }, index) => index === 0 || value >= (buckets[index - 1]?.value ?? 0),
    );
    if (!(ascends && holds && bounds.at(-1) === Number.POSITIVE_INFINITY && buckets.at(-1)?.value === count))
      throw new Error(`${name}: buckets that do not add up`);
    if (!group.some((sample) => sample.name === `${name}_sum`)) throw new Error(`${name}: no sum`);
  }
}
