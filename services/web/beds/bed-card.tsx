import type { Bed } from '../api/types/bed.js';
import type { NextLook } from '../api/types/look.js';
import { inThisFilling, isFilledAnew } from '../bed/this-filling.js';
import { Standing } from '../parts/standing.js';
import { Ago, useNow } from '../parts/when.js';
import { celsiusMore, centimetres, number } from '../words/numbers.js';
import { say } from '../words/say.js';
import { ago, dayAndTime } from '../words/times.js';
import { BedCut } from './bed-cut.js';
import { type CardFacts, cardFacts } from './card-facts.js';

/** From how much on a probe is marked as the warmest, °C: below it is what sound probes differ by. Judgement. */
const MARKED_C = 0.5;

export function BedCard({ bed, look }: { bed: Bed; look: NextLook | undefined }) {
  const facts = cardFacts(inThisFilling(bed));
  const { warmest } = facts;
  const marked = warmest !== undefined && warmest.excess_C >= MARKED_C ? warmest.probe : undefined;
  return (
    <li class="card bed-card">
      <h3>
        <a href={`/beds/${bed.id}`}>{bed.name}</a>
      </h3>
      <p class="stands">
        <Standing stands={bed.stands} /> <Since at={bed.standsSince} />
      </p>
      <BedCut bed={bed} warmest={marked} />
      <dl class="card-facts">
        <Fact name={say('beds.warmest')} value={warmestSaid(facts)} />
        <Fact name={say('beds.humidity')} value={humiditySaid(facts)} />
        <Fact
          name={say('beds.newest')}
          value={
            facts.newestAt === undefined ? (
              say(isFilledAnew(bed) ? 'bed.noReadingYet' : 'beds.noReading')
            ) : (
              <Ago at={facts.newestAt} />
            )
          }
        />
        <Fact
          name={say('beds.filled')}
          value={bed.filled === null ? say('beds.notFilled') : <Ago at={bed.filled} />}
        />
        <Fact name={say('beds.left')} value={leftSaid(bed)} />
        <Fact name={say('beds.nextLook')} value={<LookSaid look={look} />} />
      </dl>
    </li>
  );
}

function Fact({ name, value }: { name: string; value: preact.ComponentChildren }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </div>
  );
}

function Since({ at }: { at: string | null | undefined }) {
  return at ? <span class="soft">{say('beds.standsSince', { since: dayAndTime(at) })}</span> : null;
}

const warmestSaid = ({ warmest }: CardFacts): string =>
  warmest === undefined
    ? say('beds.noWarmth')
    : say('beds.warmestAt', {
        ...{ excess: celsiusMore(warmest.excess_C), probe: warmest.probe.id },
        depth: centimetres(warmest.probe.depth),
      });

const humiditySaid = ({ humidity }: CardFacts): string =>
  humidity === undefined
    ? say('parts.unknown')
    : say('beds.humidityFromTo', { from: number(humidity.least_RH), to: number(humidity.most_RH) });

const leftSaid = ({ rootsLeft }: Bed): string =>
  rootsLeft === null ? say('beds.notKept') : say('beds.leftCount', { count: rootsLeft });

function LookSaid({ look }: { look: NextLook | undefined }) {
  const now = useNow();
  if (!look?.dueAt) return <>{say('beds.noLook')}</>;
  const when = ago(look.dueAt, now);
  return <b class={look.due ? 'due' : ''}>{look.due ? say('beds.lookDue', { since: when }) : when}</b>;
}
