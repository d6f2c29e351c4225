/** What is on the bench, what is due, what holds. */
import { useMay } from '../access/may.js';
import { OnlyWhoMay } from '../access/only-who-may.js';
import { useSeen } from '../api/seen.js';
import type { Bench, Calibration, Due } from '../api/types/bench.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { When } from '../parts/when.js';
import { Wide } from '../parts/wide.js';
import { say } from '../words/say.js';
import { dayOf } from '../words/times.js';
import { BeginBench } from './begin-bench.js';
import './bench.css';
import { useFew } from './few.js';
import { measure, nameOf } from './measure.js';

export default function BenchListPage() {
  const open = useSeen<Bench[]>('/api/bench?state=open', { live: ['bench'] });
  const due = useSeen<Due[]>('/api/calibrations/due', { live: ['bench', 'probes', 'site'] });
  const mayCalibrate = useMay('calibrate');
  const kept = useSeen<Calibration[]>('/api/calibrations?inForce=true', { live: ['bench'] });
  return (
    <>
      <Title>{say('bench.title')}</Title>
      <p>{say('bench.intro')}</p>
      <section class="card">
        <h2>{say('bench.openTitle')}</h2>
        <Shown of={open}>{(benches) => <OpenBenches benches={benches} />}</Shown>
      </section>
      <section class="card">
        <h2>{say('bench.beginTitle')}</h2>
        <OnlyWhoMay action="calibrate">
          <BeginBench />
        </OnlyWhoMay>
      </section>
      <section class="card">
        <h2>{say('bench.dueTitle')}</h2>
        <Shown of={due}>{(rows) => <DueTable rows={rows} />}</Shown>
        {mayCalibrate ? (
          <p>
            <a href="/bench/beside">{say('bench.besideLink')}</a>
          </p>
        ) : null}
      </section>
      <section class="card">
        <h2>{say('bench.keptTitle')}</h2>
        <Shown of={kept}>{(records) => <Kept records={records} />}</Shown>
      </section>
    </>
  );
}

function OpenBenches({ benches }: { benches: readonly Bench[] }) {
  if (benches.length === 0) return <p>{say('bench.noneOpen')}</p>;
  return (
    <ul class="plain-list">
      {benches.map((bench) => (
        <li key={bench.id}>
          <a class="row-link" href={`/bench/${bench.id}`}>
            {say('bench.goOn', { probes: bench.probes.join(', ') })}
          </a>
          <p class="soft">
            {say('bench.begunBy', {
              ...{ quantity: nameOf(bench.quantity), when: dayOf(bench.startedAt), by: bench.by },
            })}
          </p>
        </li>
      ))}
    </ul>
  );
}

function DueTable({ rows }: { rows: readonly Due[] }) {
  const [shown, more] = useFew([...rows].sort(byDue));
  if (rows.length === 0) return <p>{say('bench.noneDue')}</p>;
  return (
    <>
      <Wide label={say('bench.dueTitle')}>
        <table>
          <thead>
            <tr>
              <th scope="col">{say('bench.probe')}</th>
              <th scope="col">{say('bench.quantity')}</th>
              <th scope="col">{say('bench.due')}</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((row) => (
              <tr key={`${row.site}/${row.probe}/${row.quantity}`}>
                <th scope="row">{row.probe}</th>
                <td>{nameOf(row.quantity)}</td>
                <td>{dueWords(row)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      {more}
    </>
  );
}

/** What was due longest ago first; of what was never calibrated nobody can say since when. */
const byDue = (one: Due, other: Due): number =>
  Number(other.isDue) - Number(one.isDue) || (one.dueAt ?? '').localeCompare(other.dueAt ?? '');

function dueWords({ dueAt, isDue }: Due): string {
  if (dueAt === null) return say('bench.neverCalibrated');
  return say(isDue ? 'bench.isDue' : 'bench.dueOn', { when: dayOf(dueAt) });
}

function Kept({ records }: { records: readonly Calibration[] }) {
  const [shown, more] = useFew(records);
  if (records.length === 0) return <p>{say('bench.noneKept')}</p>;
  return (
    <>
      <Wide label={say('bench.keptTitle')}>
        <table>
          <thead>
            <tr>
              <th scope="col">{say('bench.probe')}</th>
              <th scope="col">{say('bench.doneOn')}</th>
              <th scope="col" class="number">
                {say('bench.uncertainty')}
              </th>
            </tr>
          </thead>
          <tbody>
            {shown.map((record) => (
              <tr key={record.id}>
                <th scope="row">
                  <a class="row-link" href={`/bench/calibrations/${record.id}`}>
                    {say('bench.openCalibration', { probe: record.probe, quantity: nameOf(record.quantity) })}
                  </a>
                </th>
                <td>
                  <When at={record.doneAt} />
                </td>
                <td class="number">{measure(record.quantity, record.uncertainty.expanded)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      {more}
    </>
  );
}
