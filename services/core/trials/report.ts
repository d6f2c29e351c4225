/** The report of a trial as its parts, before it is written as a page or a PDF file. */
import type { CertificateSection, DocumentFigure } from '../calibration/certificate-document.js';
import { timeInWords } from '../calibration/certificate-words.js';
import type { Trial } from '../model/trial.js';
import { type BedMaterial, OUTCOME_WORDS } from './outcome.js';
import { treatmentsFigure } from './report-figure.js';
import { assignedText, LIMITS, methodsOf } from './report-methods.js';
import { comparisonTables, dataTable, keptTable } from './report-tables.js';
import type { SummaryCurve } from './summary-curve.js';
import type { SurvivalComparison } from './survival.js';
import { CURVE_WORDS, type CurvesOf, trialCurves } from './trial-curves.js';
import type { TrialResult } from './trial-result.js';

export interface AboutTrial {
  /** IANA name of the zone; UTC where null. */
  readonly timeZone: string | null;
  /** Wall clock at the issue, ms. */
  readonly issuedAt: number;
  /** Name and version of the program. */
  readonly program: string;
}

export interface TrialDocument {
  readonly title: string;
  readonly warnings: readonly string[];
  readonly statement: readonly string[];
  readonly sections: readonly CertificateSection[];
  readonly footer: string;
  /** ms. */
  readonly issuedAt: number;
  readonly program: string;
}

export interface TrialToReport {
  /** Every version, the one that stands first. */
  readonly versions: readonly [Trial, ...Trial[]];
  readonly materials: readonly BedMaterial[];
  readonly result: TrialResult;
}

export function trialReport(
  { versions, materials, result }: TrialToReport,
  about: AboutTrial,
): TrialDocument {
  const [trial] = versions;
  const { timeZone, issuedAt, program } = about;
  const meaning = result.words?.meaning ?? result.survivalWords?.meaning ?? [];
  return {
    title: `Trial: ${trial.name}`,
    warnings: trial.assigned?.how === 'chance' ? [] : [assignedText(trial)],
    statement: [...(trial.question === undefined ? [] : [trial.question]), ...meaning],
    sections: [
      ...findingSections(trial, result),
      courseSection(trial, materials, result.survival),
      ...restingSection(result),
      section('Methods', { notes: [methodsOf(trial)] }),
      section('Limits', { notes: LIMITS }),
      section('To do it again', { rows: againRows(versions, timeZone), notes: againNotes(trial) }),
      section('Data', { tables: [dataTable(result.rows, OUTCOME_WORDS[trial.outcome.kind].unit)] }),
    ],
    footer: `Trial ${trial.trial}, version ${trial.id}. Issued ${timeInWords(issuedAt, timeZone)} by ${program}.`,
    ...{ issuedAt, program },
  };
}

const section = (heading: string, parts: Partial<CertificateSection>): CertificateSection => ({
  ...{ heading, rows: [], tables: [], hasPlot: false, notes: [] },
  ...parts,
});

function findingSections(
  { outcome }: Trial,
  { comparison, survival, words, survivalWords, missing }: TrialResult,
): CertificateSection[] {
  const { name, unit } = OUTCOME_WORDS[outcome.kind];
  const found = comparison
    ? [
        section(`What was found: ${name}, ${unit}`, {
          tables: comparisonTables(comparison),
          notes: [
            ...(words?.differences ?? []),
            `Share of the variance: ${words?.effects.join(', ')}.`,
            ...(words?.tests ?? []),
          ],
        }),
      ]
    : [];
  const kept = survival
    ? [
        section(outcome.kind === 'first-rot' ? `What was found: ${name}` : 'Roots over time', {
          tables: [keptTable(survival)],
          notes: [
            ...(survivalWords?.differences ?? []),
            ...(survivalWords?.tests ?? []),
            ...(comparison ? (survivalWords?.meaning ?? []) : []),
          ],
        }),
      ]
    : [];
  const lacking = missing.length > 0 ? [section('What could not be compared', { notes: missing })] : [];
  return [...found, ...kept, ...lacking];
}

function restingSection({ words, survivalWords }: TrialResult): CertificateSection[] {
  const notes = [...(words?.assumptions ?? []), ...(survivalWords?.assumptions ?? [])];
  return notes.length === 0 ? [] : [section('What it rests on', { notes })];
}

function courseSection(
  trial: Trial,
  materials: readonly BedMaterial[],
  survival: SurvivalComparison | null,
): CertificateSection {
  const figures = [
    curveFigure(trialCurves(trial, materials, 'loss', 'filling'), 'loss'),
    curveFigure(trialCurves(trial, materials, 'excess', 'filling'), 'excess'),
    survival && keptFigure(survival),
  ].filter((figure) => figure !== undefined && figure !== null);
  return section('Treatments beside each other', {
    figures,
    notes: figures.length === 0 ? ['Nothing was counted or measured yet.'] : [],
  });
}

function curveFigure(curves: readonly SummaryCurve[], of: CurvesOf): DocumentFigure | undefined {
  const { name, unit } = CURVE_WORDS[of];
  const plot = treatmentsFigure(
    curves.map(({ treatment, points }) => ({
      ...{ name: treatment, stepped: false },
      points: points.map(({ time, mean, low, high }) => ({ x: time, y: mean, low, high })),
    })),
    {
      title: `${name} by treatment`,
      xLabel: 'days since the filling',
      yLabel: `${name}, ${unit}`,
      from: 0,
      to: of === 'loss' ? 10 : 1,
    },
  );
  return plot && { plot, caption: `Means of beds, ${name}; bars are pointwise 95 % intervals across beds.` };
}

function keptFigure({ treatments, clustered }: SurvivalComparison): DocumentFigure | undefined {
  const plot = treatmentsFigure(
    treatments.map(({ treatment, steps }) => ({
      ...{ name: treatment, stepped: true },
      points: [
        { x: 0, y: 100, low: null, high: null },
        ...steps.map(({ time, survival, low, high }) => ({
          ...{ x: time, y: 100 * survival },
          low: clustered || low === null ? null : 100 * low,
          high: clustered || high === null ? null : 100 * high,
        })),
      ],
    })),
    {
      title: 'Share kept by treatment',
      xLabel: 'days since the filling',
      yLabel: 'share kept, %',
      from: 0,
      to: 100,
    },
  );
  const bars = clustered
    ? 'over all roots of a treatment; no intervals are drawn, as roots of one bed share its fate'
    : 'bars are 95 % intervals (Greenwood, log-log)';
  return plot && { plot, caption: `Kaplan-Meier estimate of the share kept; ${bars}.` };
}

function againRows(versions: TrialToReport['versions'], timeZone: string | null): [string, string][] {
  const [trial] = versions;
  return [
    ['Trial', trial.trial],
    ['Design', trial.design === 'blocks' ? 'randomised blocks' : 'completely randomised'],
    [
      trial.to === undefined ? 'Begun' : 'Begun, ended',
      `${timeInWords(trial.from, timeZone)}${trial.to === undefined ? '' : `, ${timeInWords(trial.to, timeZone)}`}`,
    ],
    ['Treatments', assignedText(trial)],
    ...describedRows(trial),
    ...untakenRows(versions, timeZone),
    ...versions
      .slice(0, -1)
      .map(({ at, by, reason = '' }): [string, string] => [
        `Changed ${timeInWords(at, timeZone)}`,
        `${by}: ${reason}`,
      ]),
  ];
}

const describedRows = ({ treatments, described = {} }: Trial): [string, string][] =>
  treatments.flatMap((treatment): [string, string][] => {
    const text = described[treatment];
    return text === undefined ? [] : [[treatment, text]];
  });

/** Draws that were seen and are not in force: whoever reads must know that there were others. */
function untakenRows(versions: TrialToReport['versions'], timeZone: string | null): [string, string][] {
  const [{ assigned }] = versions;
  const taken = assigned?.how === 'chance' ? assigned.seed : undefined;
  const seeds = new Map(versions.flatMap(({ drawn }) => (drawn ? [[drawn.seed, drawn] as const] : [])));
  return [...seeds.values()]
    .filter(({ seed }) => seed !== taken)
    .map(({ seed, at, by }) => [
      'Drawn, seen and not taken',
      `seed ${seed}, ${timeInWords(at, timeZone)}, ${by}`,
    ]);
}

function againNotes({ trial, outcome, design }: Trial): string[] {
  const how = outcome.kind === 'first-rot' ? 'survival' : design === 'blocks' ? 'blocks' : 'welch';
  return [
    `The table of beds: sandlarder trial report ${trial} --csv ${trial}.csv; the comparison anew, without a service: sandlarder trial test ${trial}.csv --design ${how}`,
    ...(outcome.kind === 'first-rot'
      ? []
      : [
          `The same of roots: sandlarder trial report ${trial} --roots-csv ${trial}-roots.csv; sandlarder trial test ${trial}-roots.csv --design survival`,
        ]),
  ];
}
