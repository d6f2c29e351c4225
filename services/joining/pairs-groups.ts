/** Pairs of a file, arranged by what is calibrated with them. */
import type { Pair } from '../core/calibration/index.js';
import { SandlarderError } from '../core/errors.js';
import type { CalibratedQuantity, CalibrationPoint } from '../core/model/calibration.js';
import type { FitRequest } from '../core/model/calibration-record.js';
import type { PairsBody } from '../http/index.js';

export interface PairsGroup {
  readonly probe: string;
  readonly quantity: CalibratedQuantity;
  readonly points: CalibrationPoint[];
  /** Of the file, for each point. */
  readonly lines: number[];
}

/**
 * Pairs by probe and quantity, in the order in which the file begins with them; each point is labelled with its line.
 *
 * @param usual probe of lines that name none
 * @throws SandlarderError BAD_REQUEST for a line without probe; TOO_FEW_SAMPLES for no line
 */
export function groupsOf(pairs: readonly Pair[], usual: string | undefined): PairsGroup[] {
  const groups = new Map<string, PairsGroup>();
  for (const { line, probe = usual, quantity, point } of pairs) {
    if (probe === undefined)
      throw new SandlarderError(
        'BAD_REQUEST',
        `line ${line}: expected a column "probe", or one probe for the whole file, got neither`,
      );
    const key = `${probe}/${quantity}`;
    const group = groups.get(key) ?? { probe, quantity, points: [], lines: [] };
    group.points.push({ ...point, label: `line ${line}` });
    group.lines.push(line);
    groups.set(key, group);
  }
  if (groups.size === 0)
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      'pairs: expected at least one line after the header, got none',
    );
  return [...groups.values()];
}

/**
 * Refuses what means one calibration of a file that gives several, and lines to leave out that are not in it.
 *
 * @throws SandlarderError BAD_REQUEST
 */
export function requireMeant(
  groups: readonly PairsGroup[],
  { fit, supersedes, leaveOut = [] }: PairsBody,
): void {
  const oneOnly = (name: string, why: string): SandlarderError =>
    new SandlarderError(
      'BAD_REQUEST',
      `${name}: expected a file of one probe and one quantity, got ${groups.length} of them: ${why}`,
    );
  if (groups.length > 1 && (fit.leaveOut ?? []).length > 0)
    throw oneOnly('fit.leaveOut', 'the numbers would mean other points of each');
  if (groups.length > 1 && supersedes !== undefined)
    throw oneOnly('supersedes', 'a calibration takes the place of one');
  for (const { line, probe } of leaveOut) {
    const group = groups.find(({ lines }) => lines.includes(line));
    if (group === undefined)
      throw new SandlarderError('BAD_REQUEST', `leaveOut: expected a line with a pair, got line ${line}`);
    if (probe !== undefined && probe !== group.probe)
      throw new SandlarderError(
        'BAD_REQUEST',
        `leaveOut: expected line ${line} to be of probe ${probe}, but it is of ${group.probe}`,
      );
  }
}

/** How a group is to be fitted: lines that are left out become points that are. */
export function fitOf({ lines }: PairsGroup, { fit, leaveOut = [] }: PairsBody): FitRequest {
  const left = leaveOut
    .filter(({ line }) => lines.includes(line))
    .map(({ line, reason }) => ({ index: lines.indexOf(line), reason }));
  return left.length === 0 ? fit : { ...fit, leaveOut: [...(fit.leaveOut ?? []), ...left] };
}
