/** The columns of an export, in order: what the table schema says, and what both writers write. */
import { QUANTITIES, STORED_UNIT } from '../../core/model/quantity.js';

export interface Column {
  readonly name: string;
  readonly type: 'datetime' | 'string' | 'number' | 'integer';
  readonly title: string;
  readonly description: string;
  readonly isRequired?: true;
  readonly oneOf?: readonly string[];
}

const column = (
  type: Column['type'],
  name: string,
  title: string,
  description: string,
  rest: Pick<Column, 'isRequired' | 'oneOf'> = {},
): Column => ({ name, type, title, description, ...rest });

const ALWAYS = { isRequired: true } as const;

export const COLUMNS: readonly Column[] = [
  column('datetime', 'time', 'Time', 'When it was measured, UTC; of an hour its start', ALWAYS),
  column('string', 'site', 'Site', 'Id of the site', ALWAYS),
  column('string', 'bed', 'Bed', 'Id of the bed; empty in the shade outside'),
  column(
    'string',
    'treatment',
    'Treatment',
    'Treatment of the bed at that time by the trial it is in; empty where it is in none. A text that begins with = + - @, a tab or a line end has an apostrophe before it, so that no spreadsheet takes it for a formula',
  ),
  column('string', 'probe', 'Probe', 'Id of the probe', ALWAYS),
  column('number', 'x_cm', 'x', 'cm along the length from the north-west corner of the opening'),
  column('number', 'y_cm', 'y', 'cm along the width from the north-west corner of the opening'),
  column('number', 'depth_cm', 'Depth', 'cm down from the top of the sand'),
  column('string', 'quantity', 'Quantity', 'What was measured', { ...ALWAYS, oneOf: QUANTITIES }),
  column(
    'string',
    'unit',
    'Unit',
    'Unit of all values of the row, as RFC 8428 section 12.1 writes it: Cel is °C',
    {
      ...ALWAYS,
      oneOf: QUANTITIES.map((quantity) => STORED_UNIT[quantity]),
    },
  ),
  column(
    'string',
    'of',
    'Of',
    'A single reading, or the mean of an hour of which single readings are kept no more',
    {
      ...ALWAYS,
      oneOf: ['reading', 'hour'],
    },
  ),
  column('number', 'raw', 'As measured', 'As the probe sent it', ALWAYS),
  column(
    'number',
    'corrected',
    'Corrected',
    'By the calibration in force at that time; as measured where none was, and then without uncertainty',
  ),
  column(
    'number',
    'uncertainty',
    'Expanded uncertainty',
    'Of the corrected value, k = 2; empty without calibration',
  ),
  column(
    'string',
    'flags',
    'Flags',
    'Why the value is to be doubted, with semicolons between: what the watch does not use and why, and outside (beyond what was calibrated) or drifted (found further off than its tolerance at the next calibration)',
  ),
  column(
    'number',
    'expected',
    'Expected',
    'What the probe would show in a sound bed in that hour; of temperatures',
  ),
  column('number', 'band', 'Band', 'Half width of the band in which a sound bed stays'),
  column('number', 'excess', 'Excess', 'Mean of the hour as the watch used it, less what is expected'),
  column('integer', 'count', 'Count', 'Of an hour: how many values'),
  column('number', 'least', 'Least', 'Of an hour: the least value as measured'),
  column('number', 'greatest', 'Greatest', 'Of an hour: the greatest value as measured'),
];

/** What no two rows have in common. */
export const PRIMARY_KEY = ['site', 'probe', 'time', 'quantity', 'of'] as const;
