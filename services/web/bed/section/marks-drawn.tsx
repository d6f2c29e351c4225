/** What the watch makes of a bed, in a drawing: probes with their excess, likely sources, blind spots. */
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { excessStep, MARKS, type Shown } from './excess.js';
import type { Box } from './labels.js';
import { HALF, type ProbeDrawn, type RoundPlaced } from './marks.js';

export function Mark({ shown }: { shown: Shown }) {
  return <path class="mark" data-excess={shown} d={MARKS[shown]} />;
}

/** The mark and its label; what makes it a button stands around it. */
export function ProbeShape({ drawn, isOpen }: { drawn: ProbeDrawn; isOpen: boolean }) {
  const { probe, x, y, trueX, label, name, value, before_cm } = drawn;
  const [middleX, middleY] = [label.left + label.width / 2, label.top + label.height / 2];
  return (
    <>
      {trueX === x ? null : <path class="leader" d={`M${trueX} ${y}H${x}`} />}
      <path class="leader" d={`M${x} ${y}L${middleX} ${middleY}`} />
      <g transform={`translate(${x} ${y})`} class={before_cm === 0 ? undefined : 'off-cut'}>
        {isOpen ? <circle class="opened" r={HALF + 5} /> : null}
        <Mark shown={excessStep(probe.excess_C)} />
      </g>
      <rect class="label" {...rect(label)} rx={3} />
      <text class="label-name" x={middleX} y={label.top + 0.42 * label.height} text-anchor="middle">
        {name}
      </text>
      <text class="label-value" x={middleX} y={label.top + 0.88 * label.height} text-anchor="middle">
        {value}
      </text>
    </>
  );
}

const rect = ({ left, top, width, height }: Box) => ({ x: left, y: top, width, height });

/** A circle of its radius: as large as it is whether the cut goes through its middle or not. */
export function RoundDrawn({ placed, scale }: { placed: RoundPlaced; scale: number }) {
  const { round, x, y, label, before_cm } = placed;
  const { kind, name, radius } = round;
  return (
    <g class="round" data-kind={kind} data-off={Math.abs(before_cm) > radius}>
      {kind === 'source' ? <circle class="round-rim" cx={x} cy={y} r={radius * scale} /> : null}
      {kind === 'blind' ? (
        <text class="round-letter" x={x} y={y + 5} text-anchor="middle">
          {name}
        </text>
      ) : (
        <path class="round-middle" d={`M${x - 7} ${y}h14M${x} ${y - 7}v14`} />
      )}
      {label ? <RoundLabel x={x} y={y} label={label} name={name} /> : null}
    </g>
  );
}

function RoundLabel({ x, y, label, name }: { x: number; y: number; label: Box; name: string }) {
  const middleX = label.left + label.width / 2;
  return (
    <>
      <path class="round-leader" d={`M${x} ${y}L${middleX} ${label.top + label.height / 2}`} />
      <rect class="label" {...rect(label)} rx={3} />
      <text class="label-name" x={middleX} y={label.top + 0.74 * label.height} text-anchor="middle">
        {name}
      </text>
    </>
  );
}

/** In words: how far something lies before or behind the cut. */
export function beforeInWords(name: string, before_cm: number): string {
  const cm = number(Math.abs(before_cm));
  return before_cm > 0 ? say('bed.inFront', { name, cm }) : say('bed.behind', { name, cm });
}
