/** What became of an alarm, in order of time. */
import type { AlarmStory, HistoryEvent } from '../api/types/alarm-story.js';
import { say } from '../words/say.js';
import { dayAndTime } from '../words/times.js';

const EVENTS = {
  raised: 'alarm.eventRaised',
  refined: 'alarm.eventRefined',
  cleared: 'alarm.eventCleared',
  withdrawn: 'alarm.eventWithdrawn',
} as const;

const VERDICTS = {
  right: 'alarm.verdictRight',
  wrong: 'alarm.verdictWrong',
  other: 'alarm.verdictOther',
  unseen: 'alarm.verdictUnseen',
  untold: 'alarm.verdictUntold',
} as const;

const FOUND = ['rot', 'damp', 'sprouts', 'weevils', 'nothing'] as const;

/** A finding in words; one that came to be known later stands as the service names it. */
const foundInWords = (finding: string): string => {
  const known = FOUND.find((one) => one === finding);
  return known ? say(`alarm.${known}`) : finding;
};

export const verdictInWords = (verdict: string): string =>
  say(VERDICTS[verdict as keyof typeof VERDICTS] ?? 'alarm.verdictUntold');

function toldInWords({ by = '', told }: HistoryEvent): string {
  const event = say(EVENTS[told?.event as keyof typeof EVENTS] ?? 'alarm.eventRaised');
  const end = told?.delivered === true ? 'delivered' : told?.delivered === null ? 'onItsWay' : 'lost';
  return `${say('alarm.didTold', { by, via: told?.via ?? '', event })} (${say(`alarm.${end}`)})`;
}

const IN_WORDS: Readonly<Record<string, (event: HistoryEvent) => string>> = {
  raised: () => say('alarm.didRaised'),
  known: () => say('alarm.didKnown'),
  told: toldInWords,
  moved: () => say('alarm.didMoved'),
  acknowledged: ({ by = '' }) => say('alarm.didAcknowledged', { by }),
  shelved: ({ by = '', until = '' }) => say('alarm.didShelved', { by, until: dayAndTime(until) }),
  looked: ({ by = '', looked }) =>
    say('alarm.didLooked', { by, found: (looked?.found ?? []).map(foundInWords).join(', ') }),
  cleared: () => say('alarm.didCleared'),
  ended: () => say('alarm.didEnded'),
  withdrawn: () => say('alarm.didWithdrawn'),
};

export function History({ story: { history } }: { story: AlarmStory }) {
  return (
    <section aria-labelledby="history">
      <h2 id="history">{say('alarm.history')}</h2>
      <ol class="alarm-history">
        {history.map((event, at) => (
          <li key={`${event.what} ${event.at} ${at}`}>
            <span class="soft">
              <time dateTime={event.at}>{dayAndTime(event.at)}</time>
            </span>
            <span>{IN_WORDS[event.what]?.(event) ?? event.what}</span>
            {event.note ? <span>“{event.note}”</span> : null}
            {event.looked?.verdict ? <span>{verdictInWords(event.looked.verdict)}</span> : null}
          </li>
        ))}
      </ol>
    </section>
  );
}
