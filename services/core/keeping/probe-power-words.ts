/** A probe's energy budget for whoever builds it: each step with its arithmetic, then what it comes to. */
import type { PowerBudget, PowerTask } from './probe-power.js';

/** A season of keeping, days: about six months. Common practice, no source. */
export const SEASON_days = 183;

/** How many times what is used a panel should give in the poorest month. Judgement. */
const PANEL_TIMES = 2;
/** Days without sun that a battery beside a panel should last. Judgement. */
const AUTONOMY_days = 7;

const brief = (value: number): string => String(Number(value.toPrecision(3)));

export function powerInLines(task: PowerTask, budget: PowerBudget): string[] {
  const { battery } = task;
  return [
    `Asleep: ${brief(task.sleep_uA)} µA x 24 h = ${brief(budget.sleep_mAh_day)} mAh a day`,
    ...budget.activities.map(
      ({ current_mA, time_s, timesADay, used_mAh_day }) =>
        `Awake: ${brief(current_mA)} mA x ${brief(time_s)} s x ${brief(timesADay)} a day / 3600 = ${brief(used_mAh_day)} mAh a day`,
    ),
    `Together: ${brief(budget.used_mAh_day)} mAh a day, a mean of ${brief(budget.meanCurrent_mA)} mA`,
    `Battery: ${brief(battery.capacity_mAh)} mAh x ${brief(battery.usable_percent)} % usable x ${brief(battery.atTemperature_percent)} % at its temperature = ${brief(budget.usable_mAh)} mAh`,
    `With ${brief(battery.selfDischarge_percent_year)} % a year lost by itself it lasts ${lasts(budget.lasts_days, task.panel !== undefined)}`,
    ...solarLines(task, budget),
    ...powerCautions(task),
  ];
}

/** In whole days, rounded down: what does not last the day does not count. */
function lasts(days: number, hasPanel: boolean): string {
  const whole = Math.floor(days);
  const months = whole >= 61 ? `, about ${Math.floor(whole / 30.4)} months` : '';
  const said = `${whole} ${whole === 1 ? 'day' : 'days'}${months}`;
  if (hasPanel) return `${said} without the panel`;
  return days < SEASON_days ? `${said}: not a season of ${SEASON_days} days` : said;
}

function solarLines({ panel, battery }: PowerTask, { solar }: PowerBudget): string[] {
  if (!solar || !panel) return [];
  const { harvest_mAh_day, timesUsed, withoutSun_days, fills_days } = solar;
  const keeps =
    timesUsed >= PANEL_TIMES
      ? 'it keeps up'
      : timesUsed > 1
        ? `it keeps up without a margin: ${PANEL_TIMES} times what is used is asked for (judgement)`
        : 'it does not keep up';
  const dark =
    withoutSun_days >= AUTONOMY_days ? '' : `, under the ${AUTONOMY_days} that are asked for (judgement)`;
  return [
    `Panel: ${brief(panel.power_W)} W x ${brief(panel.sun_h_day)} h / ${brief(battery.voltage_V)} V x ${brief(panel.gives_percent)} % x ${brief(panel.charges_percent)} % = ${brief(harvest_mAh_day)} mAh a day, ${brief(timesUsed)} times what is used: ${keeps}`,
    `Without any sun a full battery lasts ${Math.floor(withoutSun_days)} days${dark}${fills_days === null ? '' : `; an empty one is full after ${brief(Math.ceil(10 * fills_days) / 10)} days of sun`}`,
  ];
}

/** Of those who build it. */
export const powerCautions = ({ panel }: PowerTask): string[] => [
  'Caution: lithium cells burn when shorted, crushed, soaked or charged wrongly. Use cells with a protection circuit and the charger made for them, never charge primary cells, and bury no cell beside roots.',
  ...(panel
    ? [
        'Caution: panel and cable outdoors draw lightning. Local rules and licensed practice decide on earthing.',
      ]
    : []),
];
