/** What a sand comes to: verdicts, each with its limit, reason and source, and cautions of the work. */
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Met } from '../../api/types/readiness.js';
import type { SandReport } from '../../api/types/sand.js';
import { Fold } from '../../parts/fold.js';
import { English, Notice } from '../../parts/notice.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { Limits, MetMark } from '../verdict.js';

export function SandShown({ report, children }: { report: SandReport; children?: ComponentChildren }) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), [report]);
  return (
    <section class="card" aria-labelledby="sand-answer">
      <h2 id="sand-answer" ref={heading} tabIndex={-1}>
        {say('sand.answer')}
      </h2>
      {children}
      <Verdicts report={report} />
      <Notice kind="caution" title={say('sand.mind')}>
        <ul lang="en">
          {report.cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </Notice>
    </section>
  );
}

export function Verdicts({ report: { grains, moisture, cooling } }: { report: SandReport }) {
  return (
    <>
      {grains ? <Grains grains={grains} /> : null}
      {moisture ? (
        <Verdict title={say('sand.water')} state={moisture.dryEnough} sentence={moisture.sentence}>
          <Limits limits={moisture.limits} />
          <p>
            <English>{moisture.method}</English>
          </p>
        </Verdict>
      ) : null}
      {cooling ? (
        <Verdict
          title={say('sand.cooling')}
          state={cooling.verdict === 'fill' ? 'met' : 'not met'}
          sentence={cooling.sentence}
        >
          <Limits limits={[cooling.limit]} />
        </Verdict>
      ) : null}
    </>
  );
}

interface VerdictParts {
  readonly title: string;
  readonly state: Met;
  readonly sentence: string;
  readonly children: ComponentChildren;
}

function Verdict({ title, state, sentence, children }: VerdictParts) {
  return (
    <div class="verdict">
      <h3>
        {title}: <MetMark state={state} />
      </h3>
      <p>
        <English>{sentence}</English>
      </p>
      <Fold title={say('sand.source')}>{children}</Fold>
    </div>
  );
}

function Grains({ grains }: { grains: NonNullable<SandReport['grains']> }) {
  const { plain, sentence, checks, USCS, Wentworth, loss_percent } = grains;
  const classes = [...USCS, ...(Wentworth ? [Wentworth] : [])].join(', ');
  return (
    <Verdict
      title={say('sand.grains')}
      state={worst(checks.map(({ state }) => state))}
      sentence={`${sentence} (${plain})`}
    >
      <ul>
        {checks.map(({ fault, state, measure, reason, limit }) => (
          <li key={limit.name}>
            <MetMark state={state} />{' '}
            <English>
              {fault}? {measure}. {reason}.
            </English>
            <Limits limits={[limit]} />
          </li>
        ))}
      </ul>
      {classes === '' ? null : <p>{say('sand.classes', { classes })}</p>}
      {loss_percent === null ? null : <p>{say('sand.loss', { loss: number(loss_percent, 1) })}</p>}
    </Verdict>
  );
}

function worst(states: readonly Met[]): Met {
  if (states.includes('not met')) return 'not met';
  return states.includes('unknown') ? 'unknown' : 'met';
}
