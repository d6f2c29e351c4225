/** One trial: what came of it, its treatments beside each other, its beds. */

import { useRoute } from 'preact-iso';
import { useMay } from '../access/may.js';
import { useSeen } from '../api/seen.js';
import type { Trial, TrialResult } from '../api/types/trial.js';
import { EnglishList } from '../jobs/english-list.js';
import { ButtonLink } from '../parts/button.js';
import { Fold } from '../parts/fold.js';
import { Notice } from '../parts/notice.js';
import { Shown } from '../parts/shown.js';
import { Title } from '../parts/title.js';
import { Back } from '../settings/back.js';
import { say, wordFor } from '../words/say.js';
import { BedsTable } from './beds-table.js';
import { Beside } from './beside.js';
import { digitsFor, valueText } from './digits.js';
import { Drawing } from './draw.js';
import { History } from './history.js';
import { spanOf } from './trials-page.js';
import './trials.css';

export default function TrialPage() {
  const { params } = useRoute();
  const id = params['trial'] ?? '';
  const path = `/api/trials/${encodeURIComponent(id)}`;
  const trial = useSeen<Trial>(path, { live: ['beds'] });
  return (
    <>
      <Back to="/trials" text={say('trialForms.toTrials')} />
      <Title>{trial.answer?.name ?? say('trials.title')}</Title>
      <Shown of={trial} thing={{ kind: 'trial', id }}>
        {(known) => <Known trial={known} path={path} onDone={trial.again} />}
      </Shown>
    </>
  );
}

interface KnownParts {
  readonly trial: Trial;
  readonly path: string;
  /** After it was changed here. */
  readonly onDone: () => void;
}

function Known({ trial, path, onDone }: KnownParts) {
  const { question, outcome, assigned, note } = trial;
  const mayCompare = useMay('compare');
  return (
    <>
      {question === null ? null : <p>{question}</p>}
      <p>
        {say('trials.outcome', {
          outcome: wordFor('outcomes', outcome.kind) ?? outcome.kind,
          day: outcome.day,
        })}
      </p>
      <p class="soft">{spanOf(trial)}</p>
      <Described of={trial} />
      {note === null ? null : <p>{note}</p>}
      {assigned === null ? (
        <Drawing {...{ trial, path, onDone }} />
      ) : (
        <>
          <Assigned how={assigned} />
          <Links path={path} />
          <Found path={path} kind={outcome.kind} />
          <Beside path={path} />
        </>
      )}
      <History path={path} />
      {mayCompare ? (
        <div class="buttons">
          <ButtonLink kind="quiet" href={`/trials/${trial.trial}/change`}>
            {say('trialForms.change')}
          </ButtonLink>
        </div>
      ) : null}
    </>
  );
}

/** Treatments with what is done. */
const Described = ({ of: { treatments, described } }: { of: Trial }) => (
  <ul class="treatments">
    {treatments.map((treatment) => (
      <li key={treatment}>
        <b>{treatment}</b>
        {described[treatment] === undefined ? null : <p>{described[treatment]}</p>}
      </li>
    ))}
  </ul>
);

function Assigned({ how }: { how: NonNullable<Trial['assigned']> }) {
  if (how.how === 'chance') return <p>{say('trials.drawn', { seed: String(how.seed) })}</p>;
  return (
    <Notice kind="caution">
      <p>{say('trials.byHand')}</p>
    </Notice>
  );
}

const Links = ({ path }: { path: string }) => (
  <ul class="trial-links">
    <li>
      <a href={`${path}/report?format=html`} target="_blank" rel="noreferrer">
        {say('trials.print')}
      </a>
    </li>
    <li>
      <a href={`${path}/report?format=pdf`} target="_blank" rel="noreferrer">
        {say('trials.pdf')}
      </a>
    </li>
  </ul>
);

function Found({ path, kind }: { path: string; kind: string }) {
  const result = useSeen<TrialResult>(`${path}/result`, { live: ['beds'] });
  return (
    <Shown of={result}>
      {(found) => (
        <>
          <section aria-labelledby="trial-found">
            <h2 id="trial-found">{say('trials.resultTitle')}</h2>
            <Differences of={found} kind={kind} />
            <EnglishList texts={(found.words ?? found.survivalWords)?.meaning ?? found.missing} />
            <Fold title={say('trials.restsOn')}>
              <EnglishList texts={restsOn(found)} />
            </Fold>
          </section>
          <BedsTable rows={found.rows} kind={kind} />
        </>
      )}
    </Shown>
  );
}

function Differences({ of: { comparison, rows }, kind }: { of: TrialResult; kind: string }) {
  if (comparison === null) return null;
  const digits = digitsFor(rows);
  return (
    <ul class="differences">
      {comparison.differences.map(({ from, to, difference }) => (
        <li key={`${from} ${to}`}>
          {say('trials.difference', {
            ...{ from, to, value: valueText(difference.estimate, kind, digits) },
            ...{
              low: valueText(difference.low, kind, digits),
              high: valueText(difference.high, kind, digits),
            },
          })}
        </li>
      ))}
    </ul>
  );
}

const restsOn = ({ words, survivalWords, missing }: TrialResult): string[] => [
  ...new Set([words, survivalWords].flatMap((each) => (each ? [...each.tests, ...each.assumptions] : []))),
  ...missing,
];
