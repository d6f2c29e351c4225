/** How uncertain a corrected value is, at five indicated values, component by component. */
import type { CalibrationFit } from '../model/calibration.js';
import type { Calibration } from '../model/calibration-record.js';
import { COVERAGE_FACTOR, type ComponentName } from './budget.js';
import {
  type CertificateColumn,
  type CertificateSection,
  type CertificateTable,
  section,
} from './certificate-document.js';
import { COMPONENT_WORDS, NONE } from './certificate-words.js';
import { type Correction, correctionAt } from './correction.js';
import { signedText, uncertaintyText, valueText } from './rounding.js';
import { studentScore } from './student.js';
import { UNIT } from './words.js';

/** Where the range is looked at: its ends, its middle, and half way between. */
const SHARES = [0, 0.25, 0.5, 0.75, 1] as const;

/** Two-sided 95 %. */
const TAIL = 0.025;

/** With fewer effective degrees of freedom k = 2 covers clearly less than 95 %: at 10 it takes 2.23 (judgement). */
const FEW_DEGREES = 10;

/** More are as good as infinitely many: Student's t is normal to three digits. */
const MOST_DEGREES = 10_000;

interface AtValue extends Correction {
  readonly indicated: number;
}

export function budgetSection({ fit, quantity }: Calibration): CertificateSection {
  const values = atValues(fit);
  const unit = UNIT[quantity];
  return section('Uncertainty of one corrected reading', {
    tables: [
      {
        caption: `At ${values.length === 1 ? 'the one indicated value' : 'values across the range'}, in ${unit}`,
        columns: VALUE_COLUMNS,
        rows: values.map(valueRow),
      },
      componentTable(values, unit),
    ],
    notes: notesOf(fit, values),
  });
}

/** One where the range is a single value. */
function atValues(fit: CalibrationFit): AtValue[] {
  const [low, high] = fit.range;
  // The ends as they are: low + (high - low) can be a last digit off.
  const at = (share: number): number => (share === 1 ? high : low + share * (high - low));
  return [...new Set(SHARES.map(at))].map((indicated) => ({ indicated, ...correctionAt(fit, indicated) }));
}

const number = (head: string, share: number): CertificateColumn => ({ head, isNumber: true, share });

const VALUE_COLUMNS: readonly CertificateColumn[] = [
  number('Indicated', 14),
  number('Correction', 14),
  number('Corrected', 14),
  number('Standard uncertainty', 14),
  number(`U (k = ${COVERAGE_FACTOR})`, 14),
  number('Effective degrees of freedom', 16),
  number('k for 95 %', 14),
];

function valueRow(value: AtValue): string[] {
  const { indicated, correction, corrected, standardUncertainty, expandedUncertainty } = value;
  return [
    valueText(indicated, expandedUncertainty),
    signedText(correction, expandedUncertainty),
    valueText(corrected, expandedUncertainty),
    uncertaintyText(standardUncertainty),
    uncertaintyText(expandedUncertainty),
    degreesText(value.effectiveDegreesOfFreedom),
    factorText(value.effectiveDegreesOfFreedom),
  ];
}

/** Cut to the next lower whole number [JCGM 100 G.4.1 note 1]. */
function degreesText(degreesOfFreedom: number | undefined): string {
  if (degreesOfFreedom === undefined) return 'infinite';
  return degreesOfFreedom > MOST_DEGREES ? `over ${MOST_DEGREES}` : String(Math.floor(degreesOfFreedom));
}

function factorText(degreesOfFreedom: number | undefined): string {
  if (degreesOfFreedom === undefined || degreesOfFreedom > MOST_DEGREES) return studentScore(TAIL).toFixed(2);
  const whole = Math.floor(degreesOfFreedom);
  return whole >= 1 ? studentScore(TAIL, whole).toFixed(2) : NONE;
}

function componentTable(values: readonly AtValue[], unit: string): CertificateTable {
  const components = values[0]?.components ?? [];
  return {
    caption: `What the standard uncertainty is made of, k = 1, in ${unit}`,
    columns: [
      { head: 'Component', isNumber: false, share: 22 },
      { head: 'Distribution', isNumber: false, share: 12 },
      { head: 'JCGM 100', isNumber: false, share: 12 },
      ...values.map(({ indicated, expandedUncertainty }) =>
        number(`at ${valueText(indicated, expandedUncertainty)}`, 10),
      ),
    ],
    rows: components.map(({ name, distribution, clause }) => [
      COMPONENT_WORDS[name],
      distribution,
      clause,
      ...values.map((value) => uncertaintyText(partOf(value, name))),
    ]),
  };
}

const partOf = ({ components }: AtValue, name: ComponentName): number =>
  components.find((component) => component.name === name)?.standardUncertainty ?? Number.NaN;

function notesOf(fit: CalibrationFit, values: readonly AtValue[]): string[] {
  const notes: string[] = [];
  const unknown = (['resolution', 'repeatability'] as const).filter((name) => fit[name] === undefined);
  if (unknown.length > 0)
    notes.push(
      `Not known, and so not counted: ${unknown.map((name) => COMPONENT_WORDS[name]).join(', ')}. The true uncertainty is larger by it.`,
    );
  if (values.some(({ effectiveDegreesOfFreedom: degrees }) => degrees !== undefined && degrees < FEW_DEGREES))
    notes.push(
      `Fewer than ${FEW_DEGREES} effective degrees of freedom: U (k = ${COVERAGE_FACTOR}) covers less than 95 % there. For 95 % multiply the ` +
        'standard uncertainty by the number in the last column (Student’s t, JCGM 100 G.3).',
    );
  notes.push(
    'This is the uncertainty of one reading under the conditions of the calibration. It does not hold drift since then, nor how ' +
      'far a probe in sand differs from the sand around it.',
  );
  return notes;
}
