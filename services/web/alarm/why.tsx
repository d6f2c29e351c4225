/** Why an alarm was raised: each number opens to what it was held against and to the readings that it rests on. */
import type { AlarmStory, HeldAgainst, WhyItem } from '../api/types/alarm-story.js';
import { Fold } from '../parts/fold.js';
import { number } from '../words/numbers.js';
import { say } from '../words/say.js';
import { asRead } from '../words/service-english.js';
import { dayAndTime } from '../words/times.js';
import { WhyReadings } from './why-readings.js';

/** Digits that say something: more for small numbers. */
const plain = (value: number): string =>
  number(value, Number.isInteger(value) ? 0 : Math.abs(value) < 1 ? 2 : 1);

/** A number of the service with its unit; ratios have none. */
function measured(value: number | string, unit: string | null): string {
  if (unit === 'time') return dayAndTime(value);
  if (typeof value === 'string') return value;
  const written = Math.abs(value) > 0 && Math.abs(value) < 0.01 ? String(value) : plain(value);
  return unit === null || unit === '1' || unit === 'probes' ? written : `${written} ${unit}`;
}

export function Why({ story }: { story: AlarmStory }) {
  return (
    <section aria-labelledby="why">
      <h2 id="why">{say('alarm.why')}</h2>
      <p>{say('alarm.whyLead')}</p>
      {story.why.map((item) =>
        item.unit === null ? (
          <p key={item.name} lang="en">{`${item.label}: ${item.inWords ?? item.value}`}</p>
        ) : (
          <Fold key={item.name} title={`${item.label}: ${item.inWords ?? measured(item.value, item.unit)}`}>
            <Opened item={item} story={story} />
          </Fold>
        ),
      )}
    </section>
  );
}

function Opened({ item, story }: { item: WhyItem; story: AlarmStory }) {
  const probe = story.probes.find((one) => one.probe === item.probe);
  return (
    <div class="card">
      <p lang="en">{asRead(item.text)}</p>
      {item.thresholds.map((held) => (
        <Held key={held.name} held={held} unit={item.unit} />
      ))}
      {probe && item.quantity ? (
        <WhyReadings probe={probe} quantity={item.quantity} raisedAt={story.raisedAt} />
      ) : (
        <p class="soft">{say('alarm.noProbe')}</p>
      )}
    </div>
  );
}

const SET_FOR = {
  default: 'alarm.setForDefault',
  site: 'alarm.setForSite',
  bed: 'alarm.setForBed',
} as const;

function Held({ held, unit }: { held: HeldAgainst; unit: string | null }) {
  const { name, value, setFor, source, meaning, limit } = held;
  return (
    <>
      <h3>{say('alarm.heldAgainst')}</h3>
      <p>
        <b class="alarm-why-number">{measured(value, held.unit)}</b> (<code>{name}</code>,{' '}
        {say(SET_FOR[setFor])})
      </p>
      {limit === undefined ? null : <p>{say('alarm.limit', { limit: measured(limit, unit) })}</p>}
      <p lang="en">{meaning}</p>
      <p class="soft" lang="en">
        {say('alarm.source', { source })}
      </p>
    </>
  );
}
