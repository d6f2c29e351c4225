/** What is said of a sand, for whoever stands at a terminal beside the balance. */
import type { GrainsDocument, SandDocument } from '../../core/keeping/index.js';

const digits = (value: number): string => String(Number(value.toPrecision(3)));
const percent = ({ low, high }: GrainsDocument['fines_percent']): string =>
  low === high ? `${digits(low)} %` : `${digits(low)} to ${digits(high)} %`;
const size = ({ is, mm }: GrainsDocument['D10']): string =>
  is === 'known' ? `${digits(mm)} mm` : `${is} ${mm} mm`;
const asSentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

function grainLines(grains: GrainsDocument): string[] {
  const { D10, D30, D50, D60, Cu, Cc, USCS, USCS_remark, Wentworth, sum_g, finer, loss_percent } = grains;
  const loss = loss_percent === null ? '' : `, ${digits(loss_percent)} % lost`;
  return [
    `Grains: ${asSentence(grains.plain)}`,
    ...grains.checks.map(checkLine),
    `  D10 ${size(D10)}, D30 ${size(D30)}, D50 ${size(D50)}, D60 ${size(D60)}; Cu ${known(Cu)}, Cc ${known(Cc)}`,
    `  USCS ${USCS.join(' or ') || 'none'}${USCS_remark && ` (${USCS_remark})`}; Wentworth: ${Wentworth ?? 'not known'}, by the median`,
    `  fines ${percent(grains.fines_percent)}, gravel ${percent(grains.gravel_percent)}; ${digits(sum_g)} g on ${finer.length} sieves and in the pan${loss}`,
    `  for water, saturated: ${grains.conductivity_m_s?.toExponential(1) ?? 'not known'}${grains.conductivity_m_s === null ? '' : ' m/s'} [${grains.conductivity_remark}]`,
  ];
}

const checkLine = ({ measure, limit, state, reason }: GrainsDocument['checks'][number]): string =>
  `  ${state}: ${measure}, ${limit.name.includes('_least_') ? 'at least' : 'at most'} ${limit.value} ${limit.unit} (${limit.name}) [${limit.source}]${state === 'met' ? '' : `: ${reason}`}`;

const known = (value: number | null): string => (value === null ? 'not known' : digits(value));

const DRYING: Readonly<Record<NonNullable<SandDocument['moisture']>['drying'], string>> = {
  constant: 'dried out: the last two weighings agree',
  losing: 'it was still losing water at the last weighing: heat it on, and weigh again',
  gained: 'it was heavier than before: it took up damp air, or something fell in',
  unknown:
    'whether it had dried out is not known: heat it again, weigh again, and give each weighing as --dry',
};

function moistureLines({ moisture }: SandDocument): string[] {
  if (!moisture) return [];
  const [limit] = moisture.limits;
  return [
    `Water: ${moisture.sentence}`,
    `  at most ${limit?.value} ${limit?.unit} (${limit?.name}) [${limit?.source}]; ${moisture.method}`,
    `  ${DRYING[moisture.drying]}`,
  ];
}

function coolingLines({ cooling }: SandDocument): string[] {
  if (!cooling) return [];
  const { sentence, limit } = cooling;
  return [
    `Warmth: ${sentence}`,
    `  at most ${limit.value} ${limit.unit} above the shade (${limit.name}) [${limit.source}]`,
  ];
}

/** @returns the verdicts with what they rest on, and what to mind */
export function sandInLines(report: SandDocument): string[] {
  return [
    ...(report.grains ? grainLines(report.grains) : []),
    ...moistureLines(report),
    ...coolingLines(report),
    'Mind:',
    ...report.cautions.map((caution) => `  ${caution}`),
  ];
}
