/**
 * Whether a bed may be filled: a list of questions, answered by its probes and by hand.
 *
 * One that is not met makes the bed not ready; else one that is not known leaves it unknown. Somebody may have the bed
 * filled all the same, with a reason that stays on record: the verdict is not changed by that.
 */
import { requireInDomain } from '../errors.js';
import {
  type HandAnswers,
  ITEM_IDS,
  type ItemId,
  type OverrideRecord,
  type ReadinessVerdict,
} from '../model/readiness.js';
import type { Bed } from '../model/site.js';
import { EARLIEST_TIME_ms, LATEST_TIME_ms } from '../model/time.js';
import { itemsOfKeeping, itemsOfPlace, itemsOfRoots } from './readiness-hand.js';
import type { ReadinessItem } from './readiness-item.js';
import type { LimitsInForce } from './readiness-limits.js';
import { itemsOfOpenPit } from './readiness-pit.js';
import { itemsOfProbes } from './readiness-probes.js';
import { itemsOfSamples } from './readiness-samples.js';
import { itemsOfSandProbes, sandCooled, sandTemperature } from './readiness-sand.js';
import { readinessSentence } from './readiness-words.js';
import type { ProbeInputs } from './readiness-worst.js';
import { sandCautions } from './sand-cautions.js';

export interface ReadinessInputs extends ProbeInputs {
  /** ms; the two days that probes are asked about end with the last whole hour before. */
  readonly at: number;
  readonly kind: Bed['kind'];
  readonly answers: HandAnswers;
}

export interface Readiness {
  readonly at: number;
  readonly kind: Bed['kind'];
  /** In the order in which they are gone through. */
  readonly items: readonly ReadinessItem[];
  readonly verdict: ReadinessVerdict;
  readonly notMet: readonly ItemId[];
  readonly unknown: readonly ItemId[];
  /** In order of time; none of a bed that is ready. */
  readonly overrides: readonly OverrideRecord[];
  readonly sentence: string;
  readonly cautions: readonly string[];
}

/**
 * Goes through the list.
 *
 * @throws SandlarderError OUT_OF_DOMAIN, TOO_FEW_SAMPLES for a measurement that cannot be
 */
export function readinessOf(inputs: ReadinessInputs, limits: LimitsInForce): Readiness {
  requireInDomain('time of the judgement, ms,', inputs.at, EARLIEST_TIME_ms, LATEST_TIME_ms);
  const items = inOrder(itemsFor(inputs, limits));
  const notMet = items.filter(({ state }) => state === 'not met').map(({ id }) => id);
  const unknown = items.filter(({ state }) => state === 'unknown').map(({ id }) => id);
  const verdict = verdictOf(notMet, unknown);
  const judged = { items, verdict, notMet, unknown, overrides: [] };
  return {
    at: inputs.at,
    kind: inputs.kind,
    ...judged,
    sentence: readinessSentence(judged),
    cautions: sandCautions(inputs.kind === 'box' ? 'filling a box' : 'filling a pit'),
  };
}

function itemsFor(inputs: ReadinessInputs, limits: LimitsInForce): ReadinessItem[] {
  const { answers, at, kind } = inputs;
  const isPit = kind === 'stepped-pit';
  return [
    ...itemsOfRoots(answers, limits),
    ...itemsOfPlace(isPit, answers, limits),
    ...(isPit && isOpen(inputs) ? itemsOfOpenPit(inputs, limits) : []),
    ...itemsOfSamples(answers, limits),
    ...itemsOfSand(inputs, limits),
    ...itemsOfKeeping(answers, at, limits),
    ...itemsOfProbes(inputs, limits),
  ];
}

/** A pit whose probes lie in sand already has sand in it, and its air can no longer be measured. */
const isOpen = ({ probes }: ReadinessInputs): boolean =>
  probes.length === 0 || probes.some(({ lies }) => lies === 'open pit');

/** By probes in the sand; where none lies in it, by a thermometer in the heap that is to be filled in. */
function itemsOfSand(inputs: ReadinessInputs, limits: LimitsInForce): ReadinessItem[] {
  const byProbes = itemsOfSandProbes(inputs, limits);
  if (byProbes.length > 0) return byProbes;
  const value = inputs.answers.sandTemperature_C;
  const byHand = {
    found: value === undefined ? [] : [{ id: 'by hand', value }],
    isComplete: value !== undefined,
  };
  return [sandTemperature('hand', byHand, limits), sandCooled('hand', byHand, inputs, limits)];
}

const inOrder = (items: readonly ReadinessItem[]): ReadinessItem[] =>
  items.toSorted((one, other) => ITEM_IDS.indexOf(one.id) - ITEM_IDS.indexOf(other.id));

function verdictOf(notMet: readonly ItemId[], unknown: readonly ItemId[]): ReadinessVerdict {
  if (notMet.length > 0) return 'not ready';
  return unknown.length > 0 ? 'unknown' : 'ready';
}
