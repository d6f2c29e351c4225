/** One drawing of a bed: cut along its length, across its width, or seen from above. */
import type { Block } from '../../../core/model/bed.js';
import { say } from '../../words/say.js';
import type { Frame } from './frame.js';
import { BedDrawn, Scale, Walls } from './ground-drawn.js';
import { type Marks, marksIn, type Round } from './marks.js';
import { beforeInWords, ProbeShape, RoundDrawn } from './marks-drawn.js';
import { ProbeButtons } from './probe-buttons.js';
import type { RootDrawn } from './roots-laid.js';
import type { Cell } from './shading.js';
import type { ProbeThen } from './then.js';
import { isCut, type Point } from './views.js';

interface CutParts {
  readonly frame: Frame;
  readonly blocks: readonly Block[];
  readonly kind: 'box' | 'stepped-pit';
  readonly cut: Point;
  readonly probes: readonly ProbeThen[];
  readonly rounds: readonly Round[];
  readonly roots: readonly RootDrawn[];
  readonly cells: readonly Cell[];
  readonly opened: string | undefined;
  readonly onOpen: (probe: string) => void;
}

export function Cut(parts: CutParts) {
  const { frame, blocks, kind, cut, probes, rounds, roots, cells, opened, onOpen } = parts;
  const { name } = frame.view;
  const marks = marksIn(frame, cut, probes, rounds);
  return (
    <figure class="cut" data-view={name}>
      <figcaption id={`cut-${name}`}>
        <b>{say(`bed.${name}`)}</b> <span class="soft">{say(`bed.${name}Seen`)}</span>
      </figcaption>
      <div class="cut-room">
        <div class="cut-sheet" style={{ '--width': `${frame.width}px`, '--height': `${frame.height}px` }}>
          <svg
            class="drawing"
            width={frame.width}
            height={frame.height}
            viewBox={`0 0 ${frame.width} ${frame.height}`}
            role="img"
            aria-label={say('bed.drawing', { what: say(`bed.${name}`) })}
          >
            <BedDrawn frame={frame} blocks={blocks} kind={kind} cut={cut} roots={roots} />
            <Cells frame={frame} cells={cells} />
            <Scale frame={frame} />
            <Walls frame={frame} />
            {name === 'above' ? <CutLines frame={frame} cut={cut} /> : null}
            {marks.rounds.map((placed) => (
              <RoundDrawn key={placed.round.key} placed={placed} scale={frame.scale} />
            ))}
            {marks.probes.map((one) => (
              <ProbeShape key={one.probe.id} drawn={one} isOpen={opened === one.probe.id} />
            ))}
          </svg>
          <ProbeButtons view={name} drawn={marks.probes} opened={opened} onOpen={onOpen} />
        </div>
      </div>
      {name === 'above' ? null : <OffCut parts={parts} marks={marks} />}
    </figure>
  );
}

/** Where the cuts go, seen from above. */
function CutLines({ frame: { x, y, right_cm, down_cm }, cut }: { frame: Frame; cut: Point }) {
  const [left, right, top, bottom] = [x(right_cm[0]), x(right_cm[1]), y(down_cm[0]), y(down_cm[1])];
  return <path class="cut-line" d={`M${left} ${y(cut.y)}H${right}M${x(cut.x)} ${top}V${bottom}`} />;
}

function Cells({ frame, cells }: { frame: Frame; cells: readonly Cell[] }) {
  const { x, y } = frame;
  return (
    <g>
      {cells.map(({ right, down, sight }) => (
        <rect
          key={`${right[0]} ${down[0]}`}
          x={x(right[0])}
          y={y(down[0])}
          width={x(right[1]) - x(right[0])}
          height={y(down[1]) - y(down[0])}
          fill={`url(#cut-${sight})`}
        />
      ))}
    </g>
  );
}

/** What lies before and behind the cut, so that nobody takes it for lying on it. */
function OffCut({ parts: { frame, blocks, cut }, marks }: { parts: CutParts; marks: Marks }) {
  const off = [
    ...marks.probes.map(({ probe, before_cm }) => ({ name: probe.id, before_cm })),
    ...marks.rounds
      .filter(({ round }) => round.kind !== 'blind')
      .map(({ round: { name }, before_cm }) => ({ name, before_cm })),
  ].filter(({ before_cm }) => before_cm !== 0);
  const hidden = blocks.length - blocks.filter((block) => isCut(frame.view, block, cut)).length;
  if (off.length === 0 && hidden === 0) return <p class="off">{say('bed.allOnCut')}</p>;
  return (
    <div class="off">
      {hidden > 0 ? <p>{say('bed.stepsOff', { count: hidden })}</p> : null}
      {off.length > 0 ? (
        <>
          <p>{say('bed.offCut')}</p>
          <ul>
            {off.map(({ name, before_cm }) => (
              <li key={name}>{beforeInWords(name, before_cm)}</li>
            ))}
          </ul>
        </>
      ) : null}
    </div>
  );
}
