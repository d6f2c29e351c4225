/** Why an alarm was raised: each number opens to what it was held against and to the readings that it rests on. */
import type { AlarmStory, HeldAgainst, WhyItem } from '../api/types/alarm-story.js';
import { Fold } from '../parts/fold.js';
import { falseAlarms } from '../words/rates.js';
import { say } from '../words/say.js';
import { asRead } from '../words/service-english.js';
import { dayAndTime } from '../words/times.js';
import { labelSaid, measured, valueSaid } from './evidence-said.js';
import { knownAt } from './then-and-now.js';
import { WhyReadings } from './why-readings.js';

export function Why({ story }: { story: AlarmStory }) {
  return (
    <section aria-labelledby="why">
      <h2 id="why">{say('alarm.why')}</h2>
      <p>
        {say('alarm.whyThen', { when: dayAndTime(knownAt(story)) })} {say('alarm.whyLead')}
      </p>
      {story.why.map((item) =>
        item.unit === null ? (
          <p key={item.name}>
            <Line item={item} />
          </p>
        ) : (
          <Fold key={item.name} title={<Line item={item} />}>
            <Opened item={item} story={story} />
          </Fold>
        ),
      )}
      {story.why.some((item) => item.unit !== null && !hasReadings(item, story)) ? (
        <p class="soft">{say('alarm.noProbe')}</p>
      ) : null}
    </section>
  );
}

const hasReadings = ({ probe, quantity }: WhyItem, { probes }: AlarmStory): boolean =>
  quantity !== null && probes.some((one) => one.probe === probe);

/** Stands where the value goes, so that each language puts it where it likes. */
const HERE = '\u0000';

function Line({ item }: { item: WhyItem }) {
  const label = labelSaid(item);
  const value = valueSaid(item);
  const [before = '', after = ''] = say('evidence.line', { label: label.text, value: HERE }).split(HERE);
  return (
    <span lang={label.lang}>
      {before}
      {value.lang === label.lang ? value.text : <span lang={value.lang}>{value.text}</span>}
      {after}
    </span>
  );
}

function Opened({ item, story }: { item: WhyItem; story: AlarmStory }) {
  const probe = story.probes.find((one) => one.probe === item.probe);
  return (
    <div class="card">
      {item.name === 'strength' ? <HowSure item={item} /> : <p lang="en">{asRead(item.text)}</p>}
      {item.thresholds.map((held) => (
        <Held key={held.name} held={held} unit={item.unit} />
      ))}
      {probe && item.quantity ? (
        <WhyReadings probe={probe} quantity={item.quantity} raisedAt={story.raisedAt} />
      ) : null}
    </div>
  );
}

/** From how often what was asked for on. Judgement. */
const FAR = 2;

/** In words first: a logarithm of a likelihood ratio says nothing to a keeper. */
function HowSure({ item: { value, thresholds } }: { item: WhyItem }) {
  const limit = thresholds.find((held) => held.limit !== undefined)?.limit;
  if (typeof value !== 'number' || limit === undefined) return null;
  const isPast = value >= limit;
  return (
    <>
      <p>{say(isPast ? (value >= FAR * limit ? 'alarm.sureFar' : 'alarm.surePast') : 'alarm.sureLess')}</p>
      <p class="soft">
        {say('alarm.sureNumber', { value: measured(value, '1'), limit: measured(limit, '1') })}
      </p>
    </>
  );
}

const isRate = (unit: string): boolean => unit === 'alarms/bed-month';

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
        <b class="alarm-why-number">{isRate(held.unit) ? falseAlarms(value) : measured(value, held.unit)}</b>{' '}
        (<code>{name}</code>, {say(SET_FOR[setFor])})
      </p>
      {limit === undefined || isRate(held.unit) ? null : (
        <p>{say('alarm.limit', { limit: measured(limit, unit) })}</p>
      )}
      <p lang="en">{meaning}</p>
      <p class="soft" lang="en">
        {say('alarm.source', { source })}
      </p>
    </>
  );
}
