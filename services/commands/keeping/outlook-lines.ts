/** An outlook in lines. */
import type { OutlookAnswer } from '../../http/index.js';

const whole = (value: number): string => String(Math.round(value));
const day = (time: string): string => time.slice(0, 10);
const plural = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

function leftLines({ months }: OutlookAnswer): string[] {
  return [
    'Left, if nothing is taken out (10 to 90 % of what is believed):',
    ...months.map(
      ({ to, left: { low, likely, high }, mean_C, warmthFrom, outside }) =>
        `  ${day(to)}: ${whole(low)} to ${whole(high)}, likely ${whole(likely)}; at ${mean_C.toFixed(1)} °C (${warmthFrom})${outside ? '; losses are larger than this says' : ''}`,
    ),
  ];
}

const weeks = (value: number | null): string => (value === null ? 'more than 52' : value.toFixed(1));

function useLines({ weeksOfFood: food, eatenPerDay, rootsPerMonth, months }: OutlookAnswer): string[] {
  const { low, likely, high } = rootsPerMonth;
  return [
    ...(food && eatenPerDay !== null
      ? [
          `Food: ${weeks(food.low)} to ${weeks(food.high)} weeks, likely ${weeks(food.likely)}, at ${(7 * eatenPerDay).toFixed(1)} roots a week`,
        ]
      : []),
    `To sell: ${whole(low)} to ${whole(high)} roots at the end of each of ${plural(months.length, 'month')}, likely ${whole(likely)}; then none is left`,
  ];
}

const HOLDING = { pays: 'holding pays', 'does-not-pay': 'holding does not pay', open: 'it may pay or not' };

const percent = (rise: number | null): string =>
  rise === null ? 'no rise at all' : `${whole(100 * rise)} %`;

function priceLines({ holdOrSell, priceOfRoot }: OutlookAnswer): string[] {
  if (!holdOrSell || priceOfRoot === null) return [];
  return [
    `Hold or sell, at your price of ${Number(priceOfRoot.toPrecision(4))} a root now. The price must rise until holding gives as much:`,
    ...holdOrSell.map(
      ({ month, rise: { ifFewAreLost, likely, ifManyAreLost }, breakEvenPrice, holding }) =>
        `  after ${plural(month, 'month')}: by ${percent(likely)} (${percent(ifFewAreLost)} if few are lost, ${percent(ifManyAreLost)} if many), to ${breakEvenPrice === null ? 'none' : Number(breakEvenPrice.toPrecision(4))} a root${holding === null ? '' : `; at what you expect ${HOLDING[holding]}`}`,
    ),
  ];
}

export function outlookInLines(found: OutlookAnswer): string[] {
  const { name, bed, roots, at, since } = found;
  return [
    `${name} (${bed}): ${plural(roots, 'root')} left on ${day(at)}, filled on ${day(since)}`,
    ...leftLines(found),
    ...useLines(found),
    ...priceLines(found),
    'It rests on:',
    ...found.notes.map((note) => `  ${note}`),
  ];
}
