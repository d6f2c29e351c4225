/** Exports as Parquet. The library is read once somebody asks for one: a start need not wait for it. */
import type { ExportChunks } from './chunk.js';

/** As `parquet-writer.ts` writes it. @param createdBy program and version */
export async function* parquetOf(chunks: ExportChunks, createdBy: string): AsyncGenerator<Buffer> {
  const writer = await import('./parquet-writer.js');
  yield* writer.parquetOf(chunks, createdBy);
}
