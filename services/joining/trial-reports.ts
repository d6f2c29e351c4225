/** Reports of trials: as data, as a page and as a file. */
import { printedPage } from '../core/calibration/printed-page.js';
import type { TrialPorts, TrialReportView } from '../http/index.js';
import { printedFile } from './printed-pdf.js';
import type { Station } from './station.js';
import { TrialDesk } from './trial-desk.js';
import { trialMaterials } from './trial-material.js';

class TrialReports {
  readonly #station: Station;
  readonly #desk: TrialDesk;
  /** Name and version of the program. */
  readonly #program: string;
  /** Wall clock, ms. */
  readonly #now: () => number;

  constructor(station: Station, desk: TrialDesk, program: string, now: () => number) {
    this.#station = station;
    this.#desk = desk;
    this.#program = program;
    this.#now = now;
  }

  /** @throws SandlarderError NOT_FOUND, CONFLICT for a trial without treatments */
  async report(id: string): Promise<TrialReportView> {
    const versions = this.#desk.versions(id);
    const [trial] = versions;
    const core = await import('../core/trials/index.js');
    const materials = await trialMaterials(this.#station, trial, this.#now());
    const result = core.trialResult(trial, materials);
    const document = core.trialReport({ versions, materials, result }, this.#about(trial.beds[0]?.bed));
    const byDays = trial.outcome.kind === 'first-rot';
    return {
      ...{ versions, document, result },
      valuesCsv: core.valuesCsv(result.rows, byDays),
      rootsCsv: core.rootsCsv(core.rootsOfTrial(trial, materials)),
    };
  }

  async page(id: string): Promise<string> {
    const { document } = await this.report(id);
    return printedPage({ ...document, windowTitle: document.title });
  }

  async pdf(id: string): Promise<Uint8Array> {
    const { document } = await this.report(id);
    return (await printedFile({ ...document, fileTitle: document.title, foot: document.footer })).file;
  }

  #about(bed: string | undefined) {
    const known = bed === undefined ? undefined : this.#station.directory.beds.get(bed);
    return { timeZone: known?.site.timezone ?? null, issuedAt: this.#now(), program: this.#program };
  }
}

/** @param program its name and version */
export function createTrials(station: Station, program: string, now: () => number): TrialPorts {
  const desk = new TrialDesk(station, now);
  const reports = new TrialReports(station, desk, program, now);
  return {
    list: () => desk.list(),
    versions: (trial) => desk.versions(trial),
    add: (body) => desk.add(body),
    draw: (trial, body) => desk.draw(trial, body),
    assign: (trial, body) => desk.assign(trial, body),
    power: (question) => desk.power(question),
    result: (trial) => desk.result(trial),
    curves: (trial, query) => desk.curves(trial, query),
    report: (trial) => reports.report(trial),
    page: (trial) => reports.page(trial),
    pdf: (trial) => reports.pdf(trial),
  };
}
