/** One bench: the point that the probes are at, how they settle, what was taken, what comes of it. */

import { useEffect } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import { useMay } from '../access/may.js';
import { OnlyWhoMay } from '../access/only-who-may.js';
import { useSeen } from '../api/seen.js';
import type { Bench } from '../api/types/bench.js';
import { English, Notice } from '../parts/notice.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';
import './bench.css';
import { Cautions } from './cautions.js';
import { GiveUp } from './give-up.js';
import { measure, nameOf } from './measure.js';
import { NextPoint } from './next-point.js';
import { Outcome } from './outcome.js';
import { SettlingList } from './settling-list.js';
import { TakenTable } from './taken-table.js';

/** How often an open bench is looked at, ms: probes on a bench send every ten seconds at the soonest. */
const LOOK_ms = 5_000;

export default function BenchPage() {
  const { params } = useRoute();
  const id = params['bench'] ?? '';
  const seen = useSeen<Bench>(`/api/bench/${encodeURIComponent(id)}`, { live: ['bench'] });
  const { answer, again } = seen;
  const isOpen = answer?.state === 'open';
  useEffect(() => {
    if (!isOpen) return undefined;
    const timer = setInterval(() => {
      if (!document.hidden) again();
    }, LOOK_ms);
    return () => clearInterval(timer);
  }, [isOpen, again]);
  return (
    <>
      <Title>
        {answer ? say('bench.benchTitle', { probes: answer.probes.join(', ') }) : say('bench.title')}
      </Title>
      <p>
        <a class="row-link" href="/bench">
          {say('parts.back')}
        </a>
      </p>
      <Shown of={seen} thing={{ kind: 'bench', id }}>
        {(bench) => <Work bench={bench} again={again} />}
      </Shown>
    </>
  );
}

function Work({ bench, again }: { bench: Bench; again: () => void }) {
  const open = bench.state === 'open';
  return (
    <>
      <p class="soft">
        {say('bench.begunBy', {
          ...{ quantity: nameOf(bench.quantity), when: dayAndTime(bench.startedAt), by: bench.by },
        })}
      </p>
      {bench.warnings.map((warning) => (
        <Notice kind="caution" key={warning}>
          <p>
            <English>{warning}</English>
          </p>
        </Notice>
      ))}
      {open ? <AtPoint bench={bench} again={again} /> : <Over bench={bench} />}
      {bench.points.some(({ captured }) => captured.length > 0) ? <TakenTable bench={bench} /> : null}
      {open ? (
        <OnlyWhoMay action="calibrate">
          <Outcome bench={bench} again={again} />
          <GiveUp bench={bench} again={again} />
        </OnlyWhoMay>
      ) : null}
    </>
  );
}

function Over({ bench }: { bench: Bench }) {
  const state = say(bench.state === 'finished' ? 'bench.stateFinished' : 'bench.stateGivenUp');
  return (
    <Notice kind="plain" title={say('bench.over', { state })}>
      {bench.reason ? <p>{bench.reason}</p> : null}
      <ul>
        {bench.calibrations.map((id, index) => (
          <li key={id}>
            <a class="row-link" href={`/bench/calibrations/${id}`}>
              {say('bench.openCalibration', {
                probe: bench.finishedProbes[index] ?? id,
                quantity: nameOf(bench.quantity),
              })}
            </a>
          </li>
        ))}
      </ul>
    </Notice>
  );
}

function AtPoint({ bench, again }: { bench: Bench; again: () => void }) {
  const point = bench.points.at(-1);
  const mayCalibrate = useMay('calibrate');
  return (
    <section class="card">
      {point ? (
        <>
          <h2>{say('bench.pointTitle', { number: point.number, label: point.label })}</h2>
          <p>
            {say('bench.pointValue', {
              value: measure(bench.quantity, point.reference),
              uncertainty: measure(bench.quantity, point.referenceUncertainty, 1),
            })}
            , {say('bench.began', { when: dayAndTime(point.startedAt) })}
          </p>
          <p class="soft">
            <English>{point.basis}</English>
          </p>
          <Cautions texts={bench.cautions} />
          <SettlingList bench={bench} again={again} />
        </>
      ) : (
        <>
          <h2>{say('bench.firstPoint')}</h2>
          <p>{say('bench.noPoint')}</p>
        </>
      )}
      {mayCalibrate ? <NextPoint bench={bench} again={again} /> : null}
    </section>
  );
}
