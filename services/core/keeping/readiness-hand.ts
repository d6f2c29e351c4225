/** What a hand answers before a bed is filled. */
import { BAD_ROOTS, type HandAnswers } from '../model/readiness.js';
import { DAY_ms, formatTime } from '../model/time.js';
import {
  type Answer,
  metIf,
  NOT_ANSWERED,
  PRACTICE,
  type ReadinessItem,
  withLimits,
  yesOrNo,
} from './readiness-item.js';
import { type LimitsInForce, ownLimit, watchLimit } from './readiness-limits.js';

/** Roots: cured, healed, sorted, cooled. */
export function itemsOfRoots(answers: HandAnswers, limits: LimitsInForce): ReadinessItem[] {
  return [
    curing(answers, limits),
    yesOrNo(
      {
        id: 'wounds-healed',
        question: 'Are the wounds of the roots healed: dry and corky, and the skin does not rub off?',
        limit: 'yes',
        reason: 'rots get in through wounds',
        answeredBy: 'hand',
      },
      'published: wounds heal in curing (extension guides); the look of it is common practice, no source',
      answers.woundsHealed,
    ),
    rootsSorted(answers),
    yesOrNo(
      {
        id: 'roots-cooled',
        question: 'Have the roots cooled in the shade since they were cured?',
        limit: 'yes',
        reason: 'after curing, warm roots sprout',
        answeredBy: 'hand',
      },
      'published: cool promptly after curing (extension guides)',
      answers.rootsCooled,
    ),
  ];
}

const CURING_LIMITS = [
  'curing_least_days',
  'curing_most_days',
  'curing_least_C',
  'curing_most_C',
  'curing_least_RH',
  'curing_most_RH',
] as const;

function curing({ curing: said }: HandAnswers, limits: LimitsInForce): ReadinessItem {
  const { own } = limits;
  return withLimits(
    {
      id: 'curing',
      question: 'How long were the roots cured, and in what air?',
      limit:
        `${own.curing_least_days} to ${own.curing_most_days} days; where the air was measured, ` +
        `${own.curing_least_C} to ${own.curing_most_C} °C and ${own.curing_least_RH} to ${own.curing_most_RH} %RH`,
      reason: 'curing closes wounds; too long a curing, or wet roots, bring rot',
      answeredBy: 'hand',
    },
    CURING_LIMITS.map((name) => ownLimit(name, limits)),
    said ? cured(said, limits) : NOT_ANSWERED,
  );
}

/** By the days alone where the air was not measured: few can. What was measured must hold. */
function cured(said: NonNullable<HandAnswers['curing']>, { own }: LimitsInForce): Answer {
  const { days, temperature_C, humidity_RH } = said;
  const isIn = (value: number | undefined, low: number, high: number): boolean =>
    value === undefined || (value >= low && value <= high);
  const parts = [
    `${days} days`,
    temperature_C === undefined ? 'temperature not measured' : `${temperature_C} °C`,
    humidity_RH === undefined ? 'humidity not measured' : `${humidity_RH} %RH`,
  ];
  return {
    measure: parts.join(', '),
    state: metIf(
      isIn(days, own.curing_least_days, own.curing_most_days) &&
        isIn(temperature_C, own.curing_least_C, own.curing_most_C) &&
        isIn(humidity_RH, own.curing_least_RH, own.curing_most_RH),
    ),
  };
}

function rootsSorted({ rootsSorted: kinds }: HandAnswers): ReadinessItem {
  const missing = BAD_ROOTS.filter((kind) => !kinds?.includes(kind));
  const answer = (): Answer => {
    if (!kinds) return NOT_ANSWERED;
    if (missing.length === 0) return { measure: 'all four kinds taken out', state: 'met' };
    return { measure: `not looked for: ${missing.join(', ')}`, state: 'not met' };
  };
  return {
    id: 'roots-sorted',
    question:
      'Was every root looked at, and each that is cut, rotten, tunnelled by weevils or frozen taken out?',
    limit: 'all four kinds',
    limits: [],
    reason: 'one bad root rots its neighbours or lets weevils out; a bad root is not fed to animals either',
    source: PRACTICE,
    answeredBy: 'hand',
    ...answer(),
  };
}

/** What keeps rain and rodents out; ditch, poles and drying are those of a pit. */
export function itemsOfPlace(isPit: boolean, answers: HandAnswers, limits: LimitsInForce): ReadinessItem[] {
  const asked = { limit: 'yes', answeredBy: 'hand' } as const;
  const roof = yesOrNo(
    {
      ...asked,
      id: 'roof',
      question: `Does a roof keep rain and sun off the ${isPit ? 'pit and a step around it' : 'box'}?`,
      reason: 'water in warm sand sprouts and rots roots; the sun warms them',
    },
    PRACTICE,
    answers.roofOver,
  );
  return isPit ? [roof, ...itemsOfPit(answers, limits)] : [roof];
}

function itemsOfPit(answers: HandAnswers, limits: LimitsInForce): ReadinessItem[] {
  const asked = { limit: 'yes', answeredBy: 'hand' } as const;
  const { pit_open_days } = limits.own;
  const days = answers.pitOpen_days;
  return [
    yesOrNo(
      {
        ...asked,
        id: 'ditch',
        question: 'Does a ditch around the pit lead rain water away, downhill?',
        reason: 'water that runs to the pit goes straight through the sand to its floor',
      },
      PRACTICE,
      answers.ditchDug,
    ),
    yesOrNo(
      {
        ...asked,
        id: 'poles',
        question: 'Do the poles that carry the roof stand firm, away from the edge of the pit?',
        reason: 'a pole at the edge breaks it down, and a roof that falls opens the pit to rain',
      },
      PRACTICE,
      answers.polesFirm,
    ),
    withLimits(
      {
        id: 'pit-open',
        question: 'How many days has the pit stood open and dry under its roof?',
        limit: `at least ${pit_open_days} days`,
        reason: 'fresh walls give off water for days',
        answeredBy: 'hand',
      },
      [ownLimit('pit_open_days', limits)],
      days === undefined ? NOT_ANSWERED : { measure: `${days} days`, state: metIf(days >= pit_open_days) },
    ),
  ];
}

/** Rodents, and who looks next. */
export function itemsOfKeeping(answers: HandAnswers, at: number, limits: LimitsInForce): ReadinessItem[] {
  const { inspect_every_days } = limits.watch;
  return [
    yesOrNo(
      {
        id: 'rodents',
        question: 'Are rats and mice kept out: no holes, mesh or boards where they could get in?',
        limit: 'yes',
        reason: 'rats are among the main losses of stepped pits',
        answeredBy: 'hand',
      },
      'published: rats and termites caused the losses of stepped pits (Abidin et al. 2016, abstract)',
      answers.rodentsKeptOut,
    ),
    withLimits(
      {
        id: 'next-look',
        question: 'Who looks into the bed next, and when?',
        limit: `within ${inspect_every_days} days`,
        reason: 'a single root that rots 15 cm away is seen by no probe, only by hand',
        answeredBy: 'hand',
      },
      [watchLimit('inspect_every_days', limits)],
      nextLook(answers.nextLook, at, inspect_every_days),
    ),
  ];
}

function nextLook(said: HandAnswers['nextLook'], at: number, every_days: number): Answer {
  if (!said) return NOT_ANSWERED;
  const isOver = said.at <= at;
  const inTime = !isOver && said.at - at <= every_days * DAY_ms;
  return {
    measure: `${said.by}, ${formatTime(said.at)}${isOver ? ', which is over' : ''}`,
    state: metIf(inTime),
  };
}
