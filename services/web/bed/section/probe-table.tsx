/** The drawings as a table, for whoever does not see them. */
import { Wide } from '../../parts/wide.js';
import { celsius, celsiusMore, number } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { buttonId } from './probe-buttons.js';
import { excessInWords } from './probe-words.js';
import type { ProbeThen } from './then.js';

export function ProbeTable(parts: { probes: readonly ProbeThen[]; onOpen: (probe: string) => void }) {
  const { probes, onOpen } = parts;
  return (
    <Wide label={say('bed.table')}>
      <table>
        <thead>
          <tr>
            <th scope="col">{say('bed.columnProbe')}</th>
            <th scope="col" class="number">
              {say('bed.columnAlong')}
            </th>
            <th scope="col" class="number">
              {say('bed.columnAcross')}
            </th>
            <th scope="col" class="number">
              {say('bed.columnDeep')}
            </th>
            <th scope="col" class="number">
              {say('bed.temperature')}
            </th>
            <th scope="col" class="number">
              {say('bed.excess')}
            </th>
            <th scope="col">{say('bed.columnStands')}</th>
          </tr>
        </thead>
        <tbody>
          {probes.map((probe) => (
            <Row key={probe.id} probe={probe} onOpen={onOpen} />
          ))}
        </tbody>
      </table>
    </Wide>
  );
}

function Row({ probe, onOpen }: { probe: ProbeThen; onOpen: (probe: string) => void }) {
  const { id, x, y, depth, latest, excess_C } = probe;
  const measured = latest?.temperature_C;
  return (
    <tr>
      <th scope="row">
        <button type="button" id={buttonId('table', id)} class="as-link" onClick={() => onOpen(id)}>
          {id}
        </button>
      </th>
      {[x, y, depth].map((cm, index) => (
        <td key={index} class="number">
          {number(cm)}
        </td>
      ))}
      <td class="number">{measured === undefined ? say('parts.none') : celsius(measured)}</td>
      <td class="number">{excess_C === null ? say('parts.unknown') : celsiusMore(excess_C)}</td>
      <td>{excessInWords(probe)}</td>
    </tr>
  );
}
