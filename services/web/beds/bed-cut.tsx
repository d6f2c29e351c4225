/** A bed cut along its length, small: its steps, and its probes with the warmest marked by a ring. */
import type { Bed, Probe } from '../api/types/bed.js';
import { say } from '../words/say.js';

/** Around the drawing, cm. */
const EDGE = 6;
/** Of a probe's dot, and of the ring around the warmest, cm. */
const DOT = 3.5;
const RING = 9;

export function BedCut({ bed, warmest }: { bed: Bed; warmest: Probe | undefined }) {
  const { name, steps, probes } = bed;
  const width = Math.max(...steps.map(({ x, length }) => x + length));
  const depth = steps.reduce((sum, { height }) => sum + height, 0);
  const label = warmest
    ? say('beds.cutWarm', { name, probe: warmest.id, probes: probes.length })
    : say('beds.cut', { name, probes: probes.length });
  let top = 0;
  return (
    <svg
      class="bed-cut"
      role="img"
      aria-label={label}
      viewBox={`${-EDGE} ${-EDGE} ${width + 2 * EDGE} ${depth + 2 * EDGE}`}
    >
      {steps.map(({ x, length, height }, index) => {
        const y = top;
        top += height;
        return <rect key={index} class="sand" x={x} y={y} width={length} height={height} />;
      })}
      <path class="ground" d={`M${-EDGE} 0H${width + EDGE}`} />
      {probes.map((probe) => (
        <circle key={probe.id} class="probe" cx={probe.x} cy={probe.depth} r={DOT} />
      ))}
      {warmest ? <circle class="warmest" cx={warmest.x} cy={warmest.depth} r={RING} /> : null}
    </svg>
  );
}
