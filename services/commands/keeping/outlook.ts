/** `sandlarder outlook BED`: what will be left, how long it feeds, whether holding pays. */
import { SandlarderError } from '../../core/errors.js';
import type { OutlookAnswer } from '../../http/index.js';
import { readNumber, readWhole } from '../numbers.js';
import { onOutput, type Say } from '../say.js';
import { ServiceClient, type ServiceFlags } from '../service-client.js';
import { outlookInLines } from './outlook-lines.js';

export interface OutlookFlags extends ServiceFlags {
  readonly months: string;
  readonly persons?: string;
  readonly rootsPerWeek?: string;
  readonly kgPerWeek?: string;
  readonly price?: string;
  readonly priceKg?: string;
  readonly cost?: string;
  readonly interest?: string;
  readonly expect?: string;
  readonly json?: boolean;
}

const MONEY = { low: 0.000_001, high: 1_000_000_000 } as const;

/** @throws SandlarderError WRONG_USAGE, and what the service refuses with */
export async function outlook(bed: string, flags: OutlookFlags, say: Say = onOutput): Promise<void> {
  const query = queryOf(flags);
  const client = new ServiceClient(flags);
  const found = await client.get<OutlookAnswer>(`/api/beds/${encodeURIComponent(bed)}/outlook?${query}`);
  if (flags.json) say(JSON.stringify(found));
  else for (const line of outlookInLines(found)) say(line);
}

function queryOf(flags: OutlookFlags): URLSearchParams {
  requireTogether(flags);
  const query = new URLSearchParams({ months: decimal(readWhole('--months', flags.months, 1, 12)) });
  const add = (key: string, flag: string, text: string | undefined, low: number, high: number): void => {
    if (text !== undefined) query.set(key, decimal(readNumber(flag, text, low, high)));
  };
  if (flags.persons !== undefined)
    query.set('persons', decimal(readWhole('--persons', flags.persons, 1, 100_000)));
  add('rootsPerPersonWeek', '--roots-per-week', flags.rootsPerWeek, 0.01, 1000);
  add('kgPerPersonWeek', '--kg-per-week', flags.kgPerWeek, 0.001, 1000);
  add('price', '--price', flags.price, MONEY.low, MONEY.high);
  add('pricePerKg', '--price-kg', flags.priceKg, MONEY.low, MONEY.high);
  add('costPerMonth', '--cost', flags.cost, 0, MONEY.high);
  add('interestPercent', '--interest', flags.interest, 0, 100);
  add('expectedPrice', '--expect', flags.expect, MONEY.low, MONEY.high);
  return query;
}

/** Without an exponent, which a query does not take. */
const decimal = (value: number): string => value.toFixed(6).replace(/\.?0+$/, '');

function requireTogether({
  persons,
  rootsPerWeek,
  kgPerWeek,
  price,
  priceKg,
  cost,
  interest,
  expect,
}: OutlookFlags) {
  const eaten = [rootsPerWeek, kgPerWeek].filter((flag) => flag !== undefined).length;
  if (!(eaten === (persons === undefined ? 0 : 1)))
    throw wrong(
      '--persons: expected it together with either --roots-per-week or --kg-per-week of one person',
    );
  if (price !== undefined && priceKg !== undefined)
    throw wrong('--price: expected it or --price-kg, got both');
  const isPriced = price !== undefined || priceKg !== undefined;
  if (!isPriced && [cost, interest, expect].some((flag) => flag !== undefined))
    throw wrong('--price: expected the price of now beside --cost, --interest or --expect, got none');
}

const wrong = (message: string): SandlarderError => new SandlarderError('WRONG_USAGE', message);
