/** The bed itself: ground or boards, sand, and roots in their courses. */
import type { Frame } from './cross-section-frame.js';
import { ellipse, line, short } from './cross-section-marks.js';
import type { CourseOfPlan, Plan } from './plan-types.js';
import { gapBeside_cm } from './root-size.js';

/** Told apart by what they are filled with, not by colour. */
export const PATTERNS = [
  '<defs>',
  '<pattern id="plan-sand" width="9" height="9" patternUnits="userSpaceOnUse"><circle cx="2" cy="2" r="0.9"/><circle cx="6.5" cy="6.5" r="0.9"/></pattern>',
  '<pattern id="plan-ground" width="10" height="10" patternUnits="userSpaceOnUse"><path d="M-1,11L11,-1" stroke="#000" stroke-width="1"/></pattern>',
  '</defs>',
].join('');

/** Ground that is drawn around a pit. */
const AROUND = 22;
const BOARD = 7;

/** The outline of all steps as one path, clockwise from the top left. */
function outline({ x, y, steps }: Frame): string {
  const right = steps.flatMap((step) => [
    [step.right, step.top],
    [step.right, step.bottom],
  ]);
  const left = [...steps].reverse().flatMap((step) => [
    [step.left, step.bottom],
    [step.left, step.top],
  ]);
  const points = [...right, ...left].map(([along = 0, deep = 0]) => `${short(x(along))},${short(y(deep))}`);
  return `M${points.join('L')}Z`;
}

function ground({ x, y, length_cm, depth_cm }: Frame): string {
  const [left, right] = [x(0) - AROUND, x(length_cm) + AROUND];
  const height = y(depth_cm) + AROUND - y(0);
  return [
    `<rect x="${short(left)}" y="${short(y(0))}" width="${short(right - left)}" height="${short(height)}" fill="url(#plan-ground)"/>`,
    line(left, y(0), right, y(0), 2),
  ].join('');
}

/** Lower end of the drawing of the bed. */
export const undersideOf = ({ y, depth_cm }: Frame): number => y(depth_cm) + AROUND;

function courseDrawn({ root, steps }: Plan, frame: Frame, course: CourseOfPlan): string {
  const { left = 0, right = 0 } = frame.steps[course.step - 1] ?? {};
  const { width_cm = 0 } = steps[course.step - 1] ?? {};
  const gap_cm = gapBeside_cm(root);
  const along = Math.max(1, Math.floor((right - left) / (root.length_cm + gap_cm)));
  const rows = Math.max(1, Math.floor(width_cm / (root.width_cm + gap_cm)));
  const seen = Math.min(along, Math.ceil(course.roots / rows));
  const pitch_cm = (right - left) / along;
  const deep = (course.top_cm + course.bottom_cm) / 2;
  const [rx, ry] = [(frame.scale * root.length_cm) / 2, (frame.scale * root.width_cm) / 2];
  return Array.from({ length: seen }, (_, index) =>
    ellipse(frame.x(left + (index + 0.5) * pitch_cm), frame.y(deep), rx, ry),
  ).join('');
}

/** Boards of a box, which is open at the top. */
function boards({ x, y, length_cm, depth_cm }: Frame): string {
  const [left, right, floor] = [x(0) - BOARD / 2, x(length_cm) + BOARD / 2, y(depth_cm) + BOARD / 2].map(
    short,
  );
  return `<path d="M${left},${y(0)}V${floor}H${right}V${y(0)}" fill="none" stroke="#000" stroke-width="${BOARD}"/>`;
}

export function bedDrawn(plan: Plan, frame: Frame): string[] {
  const path = outline(frame);
  return [
    ...(plan.kind === 'box' ? [boards(frame)] : [ground(frame)]),
    `<path d="${path}" fill="#fff" stroke="#000" stroke-width="2"/>`,
    `<path class="sand" d="${path}" fill="url(#plan-sand)"/>`,
    ...plan.courses.map((course) => courseDrawn(plan, frame, course)),
  ];
}
