/** A plan in lines, for whoever stands at a terminal with a pencil. */
import { inMeasures, KIND_IN_WORDS, type Plan, SOUGHT, type StepOfPlan } from '../core/keeping/index.js';

const whole = (value: number): string => String(Math.round(value));
/** To 0.1 kg where a kilogram is much of it. */
const kilograms = (kg: number): string => (kg < 10 ? kg.toFixed(1) : whole(kg));
const tenth = (value: number): string => (Math.round(value * 10) / 10).toFixed(1);
const plural = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;
const sizeOf = ({ length_cm, width_cm, height_cm }: StepOfPlan): string =>
  `${length_cm}x${width_cm}x${height_cm}`;
const beds = (count: number): string => (count === 1 ? 'one bed' : `${count} beds`);

/** Nearer than this no measure of a hand is of use, cm. */
const LEAST_cm = 5;

function withMeasure(plan: Plan, cm: number): string {
  return cm < LEAST_cm ? `${whole(cm)} cm` : `${whole(cm)} cm (${inMeasures(cm, plan.measures)})`;
}

function fitLines(plan: Plan): string[] {
  if (plan.fits) return [];
  const { beds: count, steps, most_roots } = plan.nearest;
  return [
    `Does not fit: ${plan.asked_roots} roots were asked for, this bed takes ${plan.most_roots} at the most.`,
    `Nearest that does: ${beds(count)} of ${steps.map(sizeOf).join(',')} (${plural(most_roots, 'root')} each). Planned here: ${plan.most_roots} roots.`,
    '',
  ];
}

function shapeLines(plan: Plan): string[] {
  const { kind, proposed, beds: count, steps, volume_L, most_roots } = plan;
  const many = count > 1 ? `, one of ${count} alike (what follows is for one)` : '';
  return [
    `${KIND_IN_WORDS[kind]}${proposed ? ', proposed' : ''}${many}: ${whole(volume_L.total)} L, takes ${plural(most_roots, 'root')} at the most`,
    ...steps.map(
      (step, index) =>
        `  step ${index + 1}: ${withMeasure(plan, step.length_cm)} long, ${withMeasure(plan, step.width_cm)} wide, ${withMeasure(plan, step.height_cm)} high: ${whole(volume_L.steps[index] ?? 0)} L`,
    ),
  ];
}

function rootLines({ roots, roots_kg, root, courses }: Plan): string[] {
  return [
    `Roots: ${roots} of ${whole(root.mass_kg * 1000)} g, ${kilograms(roots_kg)} kg, in ${plural(courses.length, 'course')}, from the floor up:`,
    ...courses.map(
      ({ course, step, top_cm, bottom_cm, roots: own }) =>
        `  course ${course}: ${own} on step ${step}, ${whole(top_cm)} to ${whole(bottom_cm)} cm deep`,
    ),
    '  They do not touch each other or the wall; sand under, between and over the courses.',
  ];
}

function workLines(plan: Plan): string[] {
  const { sand_L, sand_kg, buckets, bucket_L, bucket_kg, kind, digging_L, dug_out_L, roof } = plan;
  return [
    `Sand: ${whole(sand_L)} L, ${plural(buckets, 'bucket')} of ${bucket_L} L, ${whole(sand_kg)} kg dry (${whole(bucket_kg)} kg a bucket)`,
    ...(kind === 'box'
      ? ['Digging: none. The box stands under a roof, in the shade.']
      : [
          `Digging: ${whole(digging_L)} L; the heap beside it is ${whole(dug_out_L.low)} to ${whole(dug_out_L.high)} L`,
        ]),
    ...(roof
      ? [
          `Roof: covers ${withMeasure(plan, roof.length_cm)} by ${withMeasure(plan, roof.width_cm)}, ridge ${withMeasure(plan, roof.ridge_cm)} high, ${tenth(roof.thatch_m2)} m² of thatch`,
          `  ${roof.side_poles} side poles of ${whole(roof.side_pole_cm)} cm, ${roof.ridge_poles} ridge poles of ${whole(roof.ridge_pole_cm)} cm at the ends, outside the pit`,
        ]
      : []),
  ];
}

function warmthLines({ kind, warmth_above_ground_C: rise, ground_C }: Plan): string[] {
  const around = kind === 'box' ? 'the air around it' : 'its ground';
  if (!rise) return [`Warmth: at the upper end of what is known it would find no rest above ${around}.`];
  return [
    `Warmth: the middle of the sound bed sits ${tenth(rise.low)} to ${tenth(rise.high)} °C above ${around} at ${ground_C} °C, about ${tenth(rise.mid)}; weather comes on top`,
  ];
}

function probeLines(plan: Plan): string[] {
  const { probes, coverage_share } = plan;
  if (probes.length === 0) return [];
  return [
    `Probes: ${probes.length}; with one in the shade outside, a source of ${SOUGHT.power_W} W would be found within ${SOUGHT.days} days in ${whole(coverage_share * 100)} % of the bed`,
    ...probes.map(
      ({ id, x, y, depth }) =>
        `  ${id}: ${withMeasure(plan, x)} along, ${withMeasure(plan, y)} across, ${withMeasure(plan, depth)} deep`,
    ),
    '  counted from the north-west corner of the opening',
  ];
}

function allBedsLines({ beds: count, all_beds }: Plan): string[] {
  if (count === 1) return [];
  const { roots, sand_L, buckets, sand_kg, digging_L } = all_beds;
  const digging = digging_L > 0 ? `, ${whole(digging_L)} L of digging` : '';
  return [
    `All ${count} beds: ${roots} roots, ${whole(sand_L)} L of sand (${buckets} buckets, ${whole(sand_kg)} kg)${digging}`,
  ];
}

function assumptionLines({ assumptions }: Plan): string[] {
  const shown = (value: number): string => String(Math.round(value * 1000) / 1000);
  return Object.values(assumptions).map(
    ({ value, unit, meaning, source }) => `  ${meaning}: ${shown(value)}${unit && ` ${unit}`} [${source}]`,
  );
}

/** @returns the plan: what to do first, what it rests on last */
export function planInLines(plan: Plan): string[] {
  return [
    ...fitLines(plan),
    ...shapeLines(plan),
    ...rootLines(plan),
    ...workLines(plan),
    ...warmthLines(plan),
    ...probeLines(plan),
    ...allBedsLines(plan),
    'Take along:',
    ...plan.take_along.map(({ item, amount, unit }) => `  ${item}: ${amount} ${unit}`),
    'In this order:',
    ...plan.work.map((step, index) => `  ${index + 1}. ${step}`),
    'Mind:',
    ...plan.cautions.map((caution) => `  ${caution}`),
    'It rests on:',
    ...assumptionLines(plan),
  ];
}
