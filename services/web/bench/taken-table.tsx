import type { Bench } from '../api/types/bench.js';
import { Wide } from '../parts/wide.js';
import { say } from '../words/say.js';
import { bare, unitOf } from './measure.js';

/** What was taken at each point of each probe. */
export function TakenTable({ bench: { points, quantity } }: { bench: Bench }) {
  const unit = unitOf(quantity);
  return (
    <section class="card">
      <h2>{say('bench.takenSoFar')}</h2>
      <Wide label={say('bench.takenSoFar')}>
        <table>
          <thead>
            <tr>
              <th scope="col">{say('bench.point')}</th>
              <th scope="col">{say('bench.probe')}</th>
              <th scope="col" class="number">{`${say('bench.indicated')}, ${unit}`}</th>
              <th scope="col" class="number">{`${say('bench.referenceColumn')}, ${unit}`}</th>
              <th scope="col" class="number">{`${say('bench.difference')}, ${unit}`}</th>
            </tr>
          </thead>
          <tbody>
            {points.flatMap((point) =>
              point.captured.map(({ probe, indicated }) => (
                <tr key={`${point.number}/${probe}`}>
                  <td>{`${point.number} ${point.label}`}</td>
                  <th scope="row">{probe}</th>
                  <td class="number">{bare(quantity, indicated)}</td>
                  <td class="number">{bare(quantity, point.reference)}</td>
                  <td class="number">{bare(quantity, point.reference - indicated)}</td>
                </tr>
              )),
            )}
          </tbody>
        </table>
      </Wide>
    </section>
  );
}
