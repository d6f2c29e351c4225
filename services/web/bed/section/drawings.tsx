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
import type { Cuts } from './cuts.js';
import './drawing.css';
import { frameOf, scaleFor } from './frame.js';
import { Patterns } from './ground-drawn.js';
import { ExcessLegend } from './legend.js';
import './print.css';
import { buttonId, TOLD } from './probe-buttons.js';
import { ProbeOpen } from './probe-open.js';
import { ProbeTable } from './probe-table.js';
import { rootsIn, rootsLaid } from './roots-laid.js';
import { cellsOf } from './shading.js';
import { sourceRounds } from './sources.js';
import type { ProbeThen } from './then.js';
import { useRoom } from './use-room.js';
import { VIEWS, type ViewName } from './views.js';

/** From so many CSS pixels on, both cuts stand beside each other. */
const SIDE_BY_SIDE = 700;

/** On a phone they open. */
const OTHERS = ['across', 'above'] as const;

interface DrawingsParts {
  readonly bed: Bed;
  readonly probes: readonly ProbeThen[];
  readonly alarms: readonly Alarm[];
  readonly coverage: CoverageShown;
  readonly cuts: Cuts;
  readonly onCut: (value: string) => void;
}

interface Opened {
  readonly probe: string;
  readonly from: ViewName | 'table';
}

export function Drawings({ bed, probes, alarms, coverage, cuts, onCut }: DrawingsParts) {
  const { element, room, letters } = useRoom();
  const [opened, setOpened] = useState<Opened>();
  const { answer: fillings } = useSeen<readonly Filling[]>(
    `/api/beds/${encodeURIComponent(bed.id)}/fillings`,
    { live: ['beds'], bed: bed.id },
  );
  const laid = rootsLaid(
    bed,
    fillings?.find(({ inForce }) => inForce),
  );
  const blocks = blocksOf(bed.steps);
  const isSideBySide = room >= SIDE_BY_SIDE;
  const places = (coverage.asked && coverage.seen.answer?.places) ?? [];
  const rounds = [...coverageRounds(coverage), ...sourceRounds(alarms)];
  const close = (): void => {
    const from = opened;
    setOpened(undefined);
    if (from) focusOn(from);
  };
  const { cut } = cuts.chosen;
  const drawn = (name: ViewName) => (
    <Cut
      key={name}
      frame={frameOf(name, blocks, { scale: scaleFor(name, blocks, room, isSideBySide), letters })}
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
  );
  const openProbe = opened && probes.find(({ id }) => id === opened.probe);
  return (
    <>
      <Patterns />
      <SelectField
        label={say('bed.through')}
        value={cuts.chosen.value}
        onChange={onCut}
        options={cuts.choices}
      />
      <div ref={element} class="cuts" data-beside={isSideBySide}>
        {room === 0 ? null : drawn('along')}
        {room > 0 && isSideBySide ? OTHERS.map(drawn) : null}
        <div class="cuts-words">
          {openProbe ? <ProbeOpen probe={openProbe} alarms={alarms} site={bed.site} onClose={close} /> : null}
          <ExcessLegend />
          <p class="soft">{say(rootsInWords(laid))}</p>
        </div>
      </div>
      {room > 0 && !isSideBySide ? <Fold title={say('bed.otherCuts')}>{OTHERS.map(drawn)}</Fold> : null}
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

/** Back to what it was opened from; from a drawing, to where its probe is told. */
const focusOn = ({ probe, from }: Opened): void =>
  document.getElementById(buttonId(from === 'table' ? from : TOLD, probe))?.focus();
