/** What needs a person, the most pressing first, each with where it is done. */
import { type Today, type TodayItem, WHENS } from '../api/types/today.js';
import { StandingShape, type Stands } from '../parts/standing.js';
import { useNow } from '../parts/when.js';
import { withDegrees } from '../words/degrees.js';
import { language } from '../words/language.js';
import { say } from '../words/say.js';
import { ago, dayAndTime } from '../words/times.js';
import { leadsTo } from './leads-to.js';

const SHAPE: Readonly<Record<TodayItem['when'], Stands>> = {
  today: 'unpack',
  service: 'service',
  'next-visit': 'check',
  probe: 'service',
};

export function TodayList({ today }: { today: Today }) {
  const groups = WHENS.map((when) => [when, today.items.filter((item) => item.when === when)] as const);
  return (
    <>
      {groups.map(([when, items]) =>
        items.length === 0 ? null : (
          <section key={when} class="needed" data-when={when} aria-labelledby={`needed-${when}`}>
            <h3 id={`needed-${when}`}>
              <StandingShape stands={SHAPE[when]} />
              {say(`beds.${when}`)}
            </h3>
            <ul>
              {byBed(items).map((together) => (
                <li class="card" key={keyOf(together[0])}>
                  {together.map((item) => (
                    <Needed key={keyOf(item)} item={item} />
                  ))}
                </li>
              ))}
            </ul>
          </section>
        ),
      )}
      {today.more > 0 ? <p>{say('beds.more', { count: today.more })}</p> : null}
    </>
  );
}

type Together = readonly [TodayItem, ...TodayItem[]];

const keyOf = ({ kind, alarm, bed, probe, text }: TodayItem): string =>
  alarm ?? `${kind}/${bed?.id}/${probe}/${text}`;

/** What is to be done at one bed stands together, where its first stood. */
function byBed(items: readonly TodayItem[]): Together[] {
  const groups = new Map<string, [TodayItem, ...TodayItem[]]>();
  for (const item of items) {
    const group = groups.get(item.bed?.id ?? keyOf(item));
    if (group) group.push(item);
    else groups.set(item.bed?.id ?? keyOf(item), [item]);
  }
  return [...groups.values()];
}

function Needed({ item }: { item: TodayItem }) {
  const now = useNow();
  const { text, since, when } = item;
  const to = leadsTo(item);
  const notes = [
    since === null ? '' : say('beds.sinceWhen', { at: dayAndTime(since), ago: ago(since, now) }),
    inHandSaid(item),
  ];
  return (
    <div class="thing">
      <p class="what" lang={item.language === language() ? undefined : item.language}>
        {withDegrees(text)}
      </p>
      <p class="soft">{notes.filter(Boolean).join(' ')}</p>
      {to === undefined ? null : (
        <a class={when === 'today' ? 'button' : 'to-do'} href={to.address}>
          {to.words}
          {to.of === undefined ? null : <span class="aloud"> {to.of}</span>}
        </a>
      )}
    </div>
  );
}

function inHandSaid({ inHand, when }: TodayItem): string {
  if (inHand === null) return when === 'today' ? say('beds.inNobodysHand') : '';
  const { how, by, until } = inHand;
  return how === 'put-off' && until !== null
    ? say('beds.putOffBy', { by, until: dayAndTime(until) })
    : say('beds.seenBy', { by });
}
