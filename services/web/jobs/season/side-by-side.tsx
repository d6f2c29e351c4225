/** Several beds side by side: a row a figure, a column a bed. */
import type { SeasonOfBed } from '../../api/types/season.js';
import { Notice } from '../../parts/notice.js';
import { Wide } from '../../parts/wide.js';
import { number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { dayOf } from '../../words/times.js';
import { shareInWords } from '../stock/bands.js';
import { causeWord, reasonWord } from '../stock/left.js';
import {
  countInWords,
  keptInWords,
  massInInWords,
  meanInWords,
  notLostInWords,
  sproutsInWords,
  wentInInWords,
} from './figures.js';

export function SideBySide({ beds }: { beds: readonly SeasonOfBed[] }) {
  return (
    <>
      <h2>{say('season.sideBySide')}</h2>
      <p>{say('season.noTrial')}</p>
      <Wide label={say('season.sideBySide')}>
        <table>
          <caption class="aloud">{say('season.sideBySide')}</caption>
          <thead>
            <tr>
              <th scope="col">{say('season.figure')}</th>
              {beds.map(({ bed, name }) => (
                <th scope="col" key={bed}>
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rowsOf(beds).map(([label, ...cells]) => (
              <tr key={label}>
                <th scope="row">{label}</th>
                {cells.map((text, index) => (
                  <td key={beds[index]?.bed}>{text}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      <Notice kind="caution">
        <p>{say('stock.caution')}</p>
      </Notice>
    </>
  );
}

function rowsOf(beds: readonly SeasonOfBed[]): readonly (readonly string[])[] {
  const row = (label: string, of: (bed: SeasonOfBed) => string): string[] => [label, ...beds.map(of)];
  const reasons = [...new Set(beds.flatMap(({ out }) => out.map(({ reason }) => reason)))];
  const causes = [...new Set(beds.flatMap(({ losses }) => losses.map(({ cause }) => cause)))];
  return [
    row(say('season.filledOn'), ({ filledAt }) => dayOf(filledAt)),
    row(say('fill.cultivar'), ({ cultivar }) => cultivar ?? say('parts.unknown')),
    row(say('season.wentIn'), wentInInWords),
    row(say('season.massIn'), massInInWords),
    row(say('season.keptFor'), keptInWords),
    ...reasons.map((reason) =>
      row(say('season.rootsOut', { reason: reasonWord(reason) }), ({ left, out }) =>
        left === null
          ? say('parts.unknown')
          : number(out.find((moved) => moved.reason === reason)?.roots ?? 0),
      ),
    ),
    row(say('season.leftNow'), ({ left }) => countInWords(left)),
    row(say('season.notLost'), ({ notLost }) => notLostInWords(notLost)),
    ...causes.map((cause) =>
      row(say('season.lostTo', { cause: causeWord(cause) }), ({ losses }) => {
        const loss = losses.find((one) => one.cause === cause);
        return loss === undefined ? say('parts.unknown') : shareInWords(loss);
      }),
    ),
    row(say('season.mean'), ({ warmth }) => meanInWords(warmth)),
    row(say('season.sproutsHead'), sproutsInWords),
    row(say('season.alarms'), ({ alarms }) => number(alarms.length)),
    row(say('season.alarmsRight'), ({ alarms }) =>
      number(alarms.filter(({ found }) => found === 'right').length),
    ),
  ];
}
