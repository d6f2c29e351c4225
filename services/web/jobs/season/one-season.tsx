/** The season of one bed, from its filling. */

import type { SeasonOfBed } from '../../api/types/season.js';
import { Notice } from '../../parts/notice.js';
import { WayTo } from '../../parts/way-to.js';
import { Wide } from '../../parts/wide.js';
import { celsius, number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { dayOf } from '../../words/times.js';
import { shareInWords } from '../stock/bands.js';
import { causeWord, WhereItWent } from '../stock/left.js';
import {
  alarmWord,
  countInWords,
  foundWord,
  keptInWords,
  massInInWords,
  notLostInWords,
  sproutsInWords,
  wentInInWords,
} from './figures.js';

export function OneSeason({ season }: { season: SeasonOfBed }) {
  return (
    <>
      <h2>{season.name}</h2>
      <Facts rows={factsOf(season)} />
      <h3>{say('season.cameOut')}</h3>
      <CameOut season={season} />
      <h3>{say('season.lost')}</h3>
      <Facts rows={lossesOf(season)} />
      <Notice kind="caution">
        <p>{say('stock.caution')}</p>
      </Notice>
      <h3>{say('season.warmth')}</h3>
      <Facts rows={warmthOf(season)} />
      <h3>{say('season.alarms')}</h3>
      <Alarms alarms={season.alarms} />
    </>
  );
}

function CameOut({ season }: { season: SeasonOfBed }) {
  if (season.in.length > 0 || season.out.length > 0)
    return <WhereItWent stock={{ in: season.in, out: season.out, left: season.left, leftMass_kg: null }} />;
  return (
    <>
      <p>{say('season.notWritten')}</p>
      <p>
        <WayTo href={`/jobs/fill/${season.bed}`}>{say('stock.toFilling')}</WayTo>
      </p>
    </>
  );
}

type Rows = readonly (readonly [label: string, text: string])[];

function Facts({ rows }: { rows: Rows }) {
  return (
    <dl class="facts">
      {rows.map(([label, text]) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>{text}</dd>
        </div>
      ))}
    </dl>
  );
}

const factsOf = (season: SeasonOfBed): Rows => [
  [say('season.filledOn'), dayOf(season.filledAt)],
  [say('season.wentIn'), wentInInWords(season)],
  [say('season.massIn'), massInInWords(season)],
  [say('season.leftNow'), countInWords(season.left)],
  [say('season.keptFor'), keptInWords(season)],
  [say('fill.cultivar'), season.cultivar ?? say('parts.unknown')],
  [say('fill.field'), season.field ?? say('parts.unknown')],
  [say('fill.lot'), season.lot ?? say('parts.unknown')],
  [say('season.sproutsHead'), sproutsInWords(season)],
];

const lossesOf = (season: SeasonOfBed): Rows => [
  [say('season.notLost'), notLostInWords(season.notLost)],
  ...season.losses.map((loss) => [causeWord(loss.cause), shareInWords(loss)] as const),
];

function warmthOf({ warmth }: SeasonOfBed): Rows {
  if (warmth === null) return [[say('season.mean'), say('season.noWarmth')]];
  const { mean_C, coldest_C, warmest_C, measured, quickRot } = warmth;
  return [
    [say('season.mean'), say('season.meanOf', { mean: celsius(mean_C), days: measured })],
    [say('season.extremes'), say('season.fromTo', { low: celsius(coldest_C), high: celsius(warmest_C) })],
    [say('season.quickRot'), say('season.daysOf', { days: number(quickRot), all: number(measured) })],
  ];
}

function Alarms({ alarms }: { alarms: SeasonOfBed['alarms'] }) {
  if (alarms.length === 0) return <p>{say('parts.none')}</p>;
  return (
    <Wide label={say('season.alarmsLabel')}>
      <table>
        <caption class="aloud">{say('season.alarmsLabel')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('season.raised')}</th>
            <th scope="col">{say('season.about')}</th>
            <th scope="col">{say('season.over')}</th>
            <th scope="col">{say('season.found')}</th>
          </tr>
        </thead>
        <tbody>
          {alarms.map(({ kind, raisedAt, clearedAt, found }) => (
            <tr key={`${kind} ${raisedAt}`}>
              <td>{dayOf(raisedAt)}</td>
              <td>{alarmWord(kind)}</td>
              <td>{clearedAt === null ? say('season.notYet') : dayOf(clearedAt)}</td>
              <td>{foundWord(found)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}
