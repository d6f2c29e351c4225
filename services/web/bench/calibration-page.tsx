/** One calibration that was kept. */
import { useRoute } from 'preact-iso';
import { useSeen } from '../api/seen.js';
import type { Calibration } from '../api/types/bench.js';
import { ButtonLink } from '../parts/button.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';
import './bench.css';
import { FitSummary } from './fit-summary.js';
import { nameOf } from './measure.js';
import { ResidualPlot } from './residual-plot.js';

export default function CalibrationPage() {
  const { params } = useRoute();
  const id = params['id'] ?? '';
  const path = `/api/calibrations/${encodeURIComponent(id)}`;
  const seen = useSeen<Calibration>(path, { live: ['bench'] });
  const record = seen.answer;
  return (
    <>
      <Title>
        {record
          ? say('bench.calibrationTitle', { probe: record.probe, quantity: nameOf(record.quantity) })
          : say('bench.title')}
      </Title>
      <p>
        <a class="row-link" href="/bench">
          {say('parts.back')}
        </a>
      </p>
      <Shown of={seen} thing={{ kind: 'calibration', id }}>
        {(found) => <Record record={found} path={path} />}
      </Shown>
    </>
  );
}

function Record({ record, path }: { record: Calibration; path: string }) {
  const { from, doneAt, by, reference, inForce } = record;
  const instrument = [reference.name, reference.serial].filter(Boolean).join(', ');
  return (
    <>
      <section class="card">
        <p>
          <b>{say(inForce ? 'bench.inForce' : 'bench.notInForce')}</b>{' '}
          {say('bench.holdsFrom', { when: dayAndTime(from) })}.
        </p>
        <p>
          {say('bench.doneBy', { when: dayAndTime(doneAt), by })}.{' '}
          {say('bench.heldAgainst', { name: instrument })}.
        </p>
        <FitSummary record={record} />
        <p class="soft">{say('bench.mine')}</p>
        <div class="buttons">
          <ButtonLink href={`${path}/certificate`}>{say('bench.certificatePage')}</ButtonLink>
          <ButtonLink href={`${path}/certificate.pdf`} kind="quiet">
            {say('bench.certificatePdf')}
          </ButtonLink>
        </div>
      </section>
      <section class="card">
        <h2>{say('bench.residualsTitle')}</h2>
        <ResidualPlot record={record} />
      </section>
    </>
  );
}
