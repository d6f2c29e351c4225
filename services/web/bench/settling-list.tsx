/** How each probe comes to rest at the current point, as it sends. */

import { useState } from 'preact/hooks';
import { useMay } from '../access/may.js';
import { ask } from '../api/client.js';
import type { Bench, Captured, ProbeSettling } from '../api/types/bench.js';
import { Button } from '../parts/button.js';
import { messageOf } from '../parts/form.js';
import { English, Notice } from '../parts/notice.js';
import { say } from '../words/say.js';
import { measure } from './measure.js';
import { Trace } from './trace.js';

export function SettlingList({ bench, again }: { bench: Bench; again: () => void }) {
  const mayCalibrate = useMay('calibrate');
  const [waiting, setWaiting] = useState<Captured['waiting']>([]);
  const [failed, setFailed] = useState<string>();
  const act = async (work: () => Promise<Captured | Bench>): Promise<void> => {
    setFailed(undefined);
    setWaiting([]);
    try {
      const after = await work();
      setWaiting('waiting' in after ? after.waiting : []);
    } catch (error) {
      setFailed(messageOf(error));
    }
    again();
  };
  const post = (step: string, body: object) => () =>
    ask<Captured>(`/api/bench/${bench.id}/${step}`, { method: 'POST', body });
  const nothingTaken = bench.points.at(-1)?.captured.length === 0;
  return (
    <>
      <h3>{say('bench.settlingTitle')}</h3>
      <ul class="settling">
        {bench.settling.map((one) => (
          <ProbeRow
            key={one.probe}
            bench={bench}
            one={one}
            onTake={mayCalibrate ? () => act(post('capture', { probes: [one.probe] })) : undefined}
          />
        ))}
      </ul>
      {waiting.length > 0 ? (
        <Notice kind="done" title={say('bench.waitingTitle')}>
          <ul>
            {waiting.map(({ probe, reason }) => (
              <li key={probe}>
                {probe}: <English>{reason}</English>
              </li>
            ))}
          </ul>
        </Notice>
      ) : null}
      {failed === undefined ? null : (
        <Notice kind="refusal" title={say('parts.refusedTitle')}>
          <p>{failed}</p>
        </Notice>
      )}
      {mayCalibrate ? (
        <div class="buttons">
          <Button onPress={() => act(post('capture', {}))}>{say('bench.capture')}</Button>
          {nothingTaken ? (
            <Button kind="quiet" onPress={() => act(post('drop-point', {}))}>
              {say('bench.dropPoint')}
            </Button>
          ) : null}
        </div>
      ) : null}
    </>
  );
}

/** In one word, of what the sentence below it says why. */
function stateOf({ captured, settled, readings, slope_perMinute }: ProbeSettling) {
  if (captured) return 'captured';
  if (settled) return 'settled';
  if (readings === 0) return 'noReading';
  return slope_perMinute === null ? 'notJudged' : 'moving';
}

interface RowParts {
  readonly bench: Bench;
  readonly one: ProbeSettling;
  /** Undefined for whoever may not. */
  readonly onTake: (() => Promise<void>) | undefined;
}

function ProbeRow({ bench, one, onTake }: RowParts) {
  const { probe, captured, settled, latest, readings, reason } = one;
  const state = stateOf(one);
  return (
    <li class="settling-row" data-state={state}>
      <p>
        <b>{probe}</b> <span class="settling-state">{say(`bench.${state}`)}</span>
      </p>
      <Trace probe={probe} quantity={bench.quantity} trace={one.trace} />
      <p>
        {latest === null ? null : `${say('bench.shows', { value: measure(bench.quantity, latest) })}, `}
        {say('bench.readings', { count: readings })}
      </p>
      {captured ? null : (
        <>
          <p class="soft">
            <English>{reason}</English>
          </p>
          {settled && onTake ? (
            <Button kind="quiet" onPress={onTake}>
              {say('bench.captureOne', { probe })}
            </Button>
          ) : null}
        </>
      )}
    </li>
  );
}
