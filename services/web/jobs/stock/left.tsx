/** What is left of a bed, and where the rest went. */
import type { Moved, Stock } from '../../api/types/stock.js';
import { Wide } from '../../parts/wide.js';
import { kilograms, number } from '../../words/numbers.js';
import { say, wordFor } from '../../words/say.js';
import { dayOf } from '../../words/times.js';

export function Left({ stock }: { stock: Stock }) {
  const { left, leftMass_kg, since } = stock;
  if (left === null) return <p>{say('stock.notKept')}</p>;
  return (
    <>
      <p class="left">
        {leftMass_kg === null
          ? say('stock.left', { roots: left })
          : say('stock.leftWeighed', { roots: left, mass: kilograms(leftMass_kg, 0) })}
      </p>
      {leftMass_kg === null ? null : <p class="soft">{say('stock.leftHint')}</p>}
      {since === null ? null : <p class="soft">{say('stock.since', { day: dayOf(since) })}</p>}
    </>
  );
}

/** In and out by reason. */
export function WhereItWent({ stock }: { stock: Pick<Stock, 'in' | 'out' | 'left' | 'leftMass_kg'> }) {
  const wentIn = stock.in.reduce((sum, { roots }) => sum + roots, 0);
  if (wentIn === 0 && stock.out.length === 0) return null;
  return (
    <Wide label={say('stock.whereLabel')}>
      <table>
        <caption class="aloud">{say('stock.whereLabel')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('stock.what')}</th>
            <th scope="col" class="number">
              {say('stock.rootsHead')}
            </th>
            <th scope="col" class="number">
              {say('stock.massHead')}
            </th>
          </tr>
        </thead>
        <tbody>
          {stock.in.map((moved) => (
            <Row key={moved.reason} moved={moved} />
          ))}
          {stock.out.map((moved) => (
            <Row key={moved.reason} moved={moved} isOut />
          ))}
          <tr>
            <th scope="row">{say('stock.leftRow')}</th>
            <td class="number">{stock.left === null ? say('parts.unknown') : number(stock.left)}</td>
            <td class="number">
              {stock.leftMass_kg === null ? say('parts.unknown') : kilograms(stock.leftMass_kg, 1)}
            </td>
          </tr>
        </tbody>
      </table>
    </Wide>
  );
}

function Row({ moved: { reason, roots, mass_kg }, isOut = false }: { moved: Moved; isOut?: boolean }) {
  return (
    <tr>
      <th scope="row">{reasonWord(reason)}</th>
      <td class="number">{number(isOut ? -roots : roots)}</td>
      <td class="number">{massInWords(mass_kg === null ? null : isOut ? -mass_kg : mass_kg)}</td>
    </tr>
  );
}

const massInWords = (mass_kg: number | null): string =>
  mass_kg === null ? say('stock.notWeighed') : kilograms(mass_kg, 1);

/** A reason as it is said; the service's own name where this page has no word for it. */
export const reasonWord = (reason: string): string => wordFor('reasons', reason) ?? reason;
export const causeWord = (cause: string): string => wordFor('causes', cause) ?? cause;
