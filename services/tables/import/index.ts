/** What the rest of the program may use of the reading of tables. */
export { digestOf } from './digest.js';
export { EPOCHS, ISO, type Mapping, readMapping } from './mapping.js';
export { type OpenTable, openTable } from './open-table.js';
export { type Place, readRecords } from './records.js';
export type { RefusedLine } from './refusal.js';
export { RefusedFile } from './refused-file.js';
export { refusedReading } from './refused-reading.js';
export { type RowSink, rowReader, type TableReading } from './row-reader.js';
export { type Foresee, type ProbeSurvey, type SetAside, type Survey, surveyTable } from './survey.js';
