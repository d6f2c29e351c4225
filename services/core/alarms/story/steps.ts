/**
 * What to do about an alarm, step by step, for somebody who stands at the bed. English.
 *
 * The order is common practice, no source, as are opening from one side, feeling and smelling, and dry sand anew; the
 * sources of the cautions stand with them.
 */
import type { Action, AlarmKind, Place } from '../../model/alarm.js';
import { DIGGING_CAUTION, FOOD_CAUTION, LIFTING_CAUTION, UNSEEN_CAUTION } from '../cautions.js';
import { asksWhatWasDone } from '../wording.js';
import { serviceSteps } from './steps-service.js';
import { type OpenedBed, step, type TodoStep, type ToldAlarm, whereInWords } from './todo-step.js';

const WRITE_DOWN = step('Write down what you found, also when it was nothing: then the watch learns of it.');

/** A box has no walls of earth. */
const digging = ({ kind }: OpenedBed): string[] => (kind === 'box' ? [] : [DIGGING_CAUTION]);

const WATER_FIRST =
  'Look where water can come in, above that place first: roof, film, walls, the ditch. Close it before anything goes back.';

function unpackSteps({ kind, place }: ToldAlarm, bed: OpenedBed): TodoStep[] {
  const where = whereInWords(place, bed, 'where it feels warm or damp');
  const isWater = kind === 'damp' || kind === 'wetting' || kind === 'condensation';
  return [
    step(`Go to ${bed.name} today, by two. Take baskets, dry and cool sand, and something to write on.`),
    ...(isWater ? [step(WATER_FIRST)] : []),
    step('Take the cover off and open the bed from one side.', ...digging(bed)),
    step(`Dig here first: ${where}. Feel and smell the sand as you go down.`),
    step(
      'Take the roots out from there outwards, course by course, until sand and roots are cool, dry and clean.',
      LIFTING_CAUTION,
    ),
    step('Feel, smell and look at every root, also those around a rotten one.', FOOD_CAUTION),
    step('Take out the sand that is warm, damp or smells: it does not go back.'),
    step('Put only firm, dry, whole roots back, in dry and cool sand, and close the bed.'),
    WRITE_DOWN,
  ];
}

const LOOK: Readonly<Record<AlarmKind, readonly TodoStep[]>> = {
  heating: [
    step('Smell your hand and the sand from there.'),
    step('If the sand is warm or smells bad, unpack the bed at once.', FOOD_CAUTION),
  ],
  damp: [
    step('Let the sand run through your fingers: dry sand runs, damp sand clings.'),
    step('Take a cup of that sand, weigh it, dry it, and weigh it again: above 1 % of water is too damp.'),
    step(
      'If it clings, or if roots are wet, unpack the bed and find where the water comes in.',
      FOOD_CAUTION,
    ),
  ],
  wetting: [step(WATER_FIRST), step('If the sand there is wet, unpack the bed today.', FOOD_CAUTION)],
  condensation: [
    step('Feel the roots for wet. Wet ones dry in the shade before they go back.', FOOD_CAUTION),
    step('Keep the bed closed while the air outside is warm and moist.'),
  ],
  sprouting: [
    step('Look at some roots of each course for sprouts.', FOOD_CAUTION),
    step(
      'Rub off sprouts shorter than about a thumbnail (1.5 cm) and put the root back. Eat firm, clean roots with longer ones, or keep them for seed.',
    ),
  ],
  weevil: [
    step('Look at some roots of each course for holes and for grubs in a cut root.', FOOD_CAUTION),
    step('Take out every root with holes, the whole root, and bury it away from the store.'),
    step('If you find weevils, call the extension officer: others have eggs or grubs inside.'),
  ],
  'probe-fault': [],
  'probe-silent': [],
  'inspection-due': [
    step('Look at some roots of each course: rot, sprouts, holes, gnawed ones.', FOOD_CAUTION),
    step('If the sand is warm or smells bad anywhere, unpack the bed at once.'),
  ],
};

function checkSteps(alarm: ToldAlarm, bed: OpenedBed): TodoStep[] {
  const { kind, place } = alarm;
  const isLook = kind === 'inspection-due';
  const where = whereInWords(place, bed, 'in several places, at each end and in the middle');
  return [
    step(
      `At your next visit to ${bed.name}: open the bed from one side.`,
      ...digging(bed),
      ...(isLook ? [UNSEEN_CAUTION] : []),
    ),
    step(`Put a hand into the sand: ${where}. Is it warmer than the sand beside the bed?`),
    ...LOOK[kind],
    WRITE_DOWN,
  ];
}

function askedSteps({ name }: OpenedBed): TodoStep[] {
  return [
    step(`Ask who was at ${name}: was it opened, was sand or were roots taken out, were probes moved?`),
    step('Write down what was done, and when. Until then the probes of this bed are trusted less.'),
    step('If nobody was there, look at the bed: animals, thieves, a fallen roof or wall.'),
  ];
}

/** In order. @param probeAt where the probe lies that is to be seen to; null where that is not known */
export function stepsOf(alarm: ToldAlarm, bed: OpenedBed, probeAt: Place | null = null): TodoStep[] {
  const steps: Readonly<Record<Action, () => TodoStep[]>> = {
    unpack: () => unpackSteps(alarm, bed),
    check: () =>
      alarm.kind.startsWith('probe-') ? serviceSteps(alarm, bed, probeAt) : checkSteps(alarm, bed),
    service: () => serviceSteps(alarm, bed, probeAt),
    none: () => [step('Nothing to do now.')],
  };
  return asksWhatWasDone(alarm) && alarm.action !== 'unpack' ? askedSteps(bed) : steps[alarm.action]();
}
