/** What the rest of the program may use of the writing of tables. */
export type { ExportChunk, ExportChunks, ExportPlace, ExportQuantity, JudgedHour } from './chunk.js';
export { csvOf } from './csv-writer.js';
export {
  citation,
  type Described,
  dataPackage,
  type ExportFormat,
  FILES,
  rowsFile,
  tableSchema,
  type Written,
} from './data-package.js';
export { parquetOf } from './parquet.js';
