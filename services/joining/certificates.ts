/** Certificates of calibrations, as a page and as a file to print. */
import { certificateOf } from '../core/calibration/certificate.js';
import type { AboutCertificate } from '../core/calibration/certificate-document.js';
import { certificatePage } from '../core/calibration/certificate-page.js';
import { plotGeometry } from '../core/calibration/residual-plot.js';
import { residualPlotSvg } from '../core/calibration/residual-plot-svg.js';
import type { Calibration } from '../core/model/calibration-record.js';
import type { CalibrationDesk } from './calibration-desk.js';
import { certificatePdf } from './certificate-pdf.js';
import type { Station } from './station.js';

export class Certificates {
  readonly #station: Station;
  readonly #desk: CalibrationDesk;
  /** Name and version of the program. */
  readonly #program: string;
  /** Wall clock, ms. */
  readonly #now: () => number;

  constructor(station: Station, desk: CalibrationDesk, program: string, now: () => number) {
    this.#station = station;
    this.#desk = desk;
    this.#program = program;
    this.#now = now;
  }

  /** @throws SandlarderError NOT_FOUND */
  page(id: string): string {
    const record = this.#desk.get(id);
    return certificatePage(certificateOf(record, this.#about(record)), residualPlotSvg(record));
  }

  /** @throws SandlarderError NOT_FOUND */
  pdf(id: string): Promise<Uint8Array> {
    const record = this.#desk.get(id);
    return certificatePdf(certificateOf(record, this.#about(record)), plotGeometry(record));
  }

  #about(record: Calibration): AboutCertificate {
    const { site, probe } = record;
    const description = this.#station.registry.sites.descriptions().find((one) => one.site.id === site);
    return {
      siteName: description?.site.name ?? site,
      probeModel: description?.probes.find(({ id }) => id === probe)?.model ?? null,
      timeZone: description?.site.timezone ?? null,
      issuedAt: this.#now(),
      program: this.#program,
      supersededBy: this.#desk.supersededBy(record),
      inForce: this.#desk.isInForce(record),
    };
  }
}
