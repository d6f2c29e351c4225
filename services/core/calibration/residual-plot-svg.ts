/** The residual plot as SVG, to stand within a page or by itself. */
import type { Calibration } from '../model/calibration-record.js';
import { plotSvg } from './plot-svg.js';
import { plotGeometry } from './residual-plot.js';

/**
 * The plot of `plotGeometry`, drawn.
 *
 * @throws SandlarderError OUT_OF_DOMAIN as that does
 */
export const residualPlotSvg = (record: Calibration): string =>
  plotSvg(plotGeometry(record), 'residual-plot');
