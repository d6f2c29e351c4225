/** Both cuts and the view from above, at one scale; where the cuts go; and the probe that is opened. */
import { useState } from 'preact/hooks';
import { blocksOf } from '../../../core/model/bed.js';
import { useSeen } from '../../api/seen.js';
import type { Alarm } from '../../api/types/alarm.js';
import type { Bed } from '../../api/types/bed.js';
import type { Filling } from '../../api/types/filling.js';
import { SelectField } from '../../parts/field.js';
import { Fold } from '../../parts/fold.js';
import { say } from '../../words/say.js';
import { type CoverageShown, coverageRounds } from './coverage.js';
import { Cut } from './cut.js';
import './drawing.css';
import { frameOf, scaleFor } from './frame.js';
import { Patterns } from './ground-drawn.js';
import { ExcessLegend } from './legend.js';
import { buttonId } from './probe-buttons.js';
import { ProbeOpen } from './probe-open.js';
import { ProbeTable } from './probe-table.js';
import { rootsIn, rootsLaid } from './roots-laid.js';
import { cellsOf } from './shading.js';
import { placed, sourceRounds } from './sources.js';
import type { ProbeThen } from './then.js';
import { useRoom } from './use-room.js';
import { type Point, reachOfAll, VIEWS, type ViewName } from './views.js';

/** From so many CSS pixels on, both cuts stand beside each other. */
const SIDE_BY_SIDE = 700;

interface DrawingsParts {
  readonly bed: Bed;
  readonly probes: readonly ProbeThen[];
  readonly alarms: readonly Alarm[];
  readonly coverage: CoverageShown;
}

interface Opened {
  readonly probe: string;
  readonly from: ViewName | 'table';
}

export function Drawings({ bed, probes, alarms, coverage }: DrawingsParts) {
  const [element, room] = useRoom();
  const [through, setThrough] = useState('');
  const [opened, setOpened] = useState<Opened>();
  const { answer: fillings } = useSeen<readonly Filling[]>(
    `/api/beds/${encodeURIComponent(bed.id)}/fillings`,
    { live: ['beds'], bed: bed.id },
  );
  const laid = rootsLaid(
    bed,
    fillings?.find(({ inForce }) => inForce),
  );
  const cuts = cutsOf(bed, probes, alarms);
  const chosen = cuts.find(({ value }) => value === through) ?? cuts[0];
  const blocks = blocksOf(bed.steps);
  const isSideBySide = room >= SIDE_BY_SIDE;
  const scale = scaleFor(blocks, room, isSideBySide);
  const places = (coverage.asked && coverage.seen.answer?.places) ?? [];
  const rounds = [...coverageRounds(coverage), ...sourceRounds(alarms)];
  const close = (): void => {
    const from = opened;
    setOpened(undefined);
    if (from) focusOn(from);
  };
  const cut = chosen?.cut ?? { x: 0, y: 0, depth: 0 };
  const openProbe = opened && probes.find(({ id }) => id === opened.probe);
  return (
    <>
      <Patterns />
      <SelectField
        label={say('bed.through')}
        value={chosen?.value ?? ''}
        onChange={setThrough}
        options={cuts}
      />
      <div ref={element} class="cuts" data-beside={isSideBySide}>
        {room === 0
          ? null
          : (['along', 'across', 'above'] as const).map((name) => (
              <Cut
                key={name}
                frame={frameOf(name, blocks, scale)}
                blocks={blocks}
                kind={bed.kind}
                cut={cut}
                probes={probes}
                rounds={rounds}
                roots={laid && name !== 'above' && places.length === 0 ? rootsIn(laid, VIEWS[name]) : []}
                cells={places.length > 0 ? cellsOf(bed.steps, places, VIEWS[name], cut) : []}
                opened={opened?.probe}
                onOpen={(probe) => setOpened({ probe, from: name })}
              />
            ))}
        <div class="cuts-words">
          {openProbe ? <ProbeOpen probe={openProbe} alarms={alarms} site={bed.site} onClose={close} /> : null}
          <ExcessLegend />
          <p class="soft">{say(rootsInWords(laid))}</p>
        </div>
      </div>
      <Fold title={say('bed.asTable')}>
        <ProbeTable probes={probes} onOpen={(probe) => setOpened({ probe, from: 'table' })} />
      </Fold>
    </>
  );
}

function rootsInWords(laid: ReturnType<typeof rootsLaid>) {
  if (!laid) return 'bed.rootsUnknown' as const;
  return laid.written ? ('bed.rootsWritten' as const) : ('bed.rootsWorkedOut' as const);
}

/** Back to what it was opened from. */
const focusOn = ({ probe, from }: Opened): void => document.getElementById(buttonId(from, probe))?.focus();

/** Where the cuts may go: the likely source first, for that is where one looks. */
function cutsOf(bed: Bed, probes: readonly ProbeThen[], alarms: readonly Alarm[]) {
  const blocks = blocksOf(bed.steps);
  const middle = (length: keyof Point): number => {
    const [low, high] = reachOfAll(blocks, length);
    return (low + high) / 2;
  };
  return [
    ...placed(alarms)
      .slice(0, 1)
      .map(({ place }) => ({ value: 'source', label: say('bed.throughSource'), cut: place as Point })),
    {
      ...{ value: 'middle', label: say('bed.throughMiddle') },
      cut: { x: middle('x'), y: middle('y'), depth: middle('depth') },
    },
    ...probes.map((probe) => ({
      ...{ value: `probe ${probe.id}`, label: say('bed.throughProbe', { id: probe.id }) },
      cut: probe as Point,
    })),
  ];
}
