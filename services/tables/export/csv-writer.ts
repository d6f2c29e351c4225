/**
 * An export as CSV [RFC 4180]: commas, CR LF, a header, UTF-8. One row for each probe, time and quantity.
 */
import { DAY_ms, formatTime } from '../../core/model/time.js';
import { csvCell } from '../csv-cell.js';
import { textCell } from '../text-cell.js';
import { ByteText } from './byte-text.js';
import type { ExportChunk, ExportChunks, ExportQuantity, JudgedHour } from './chunk.js';
import { COLUMNS } from './columns.js';

/** Numbers, separators and line end of a row, bytes; the texts come on top. */
const NUMBERS_bytes = 14 * 26;

/** Room at the start, bytes: a chunk of some thousand rows. */
const ROOM_bytes = 256 * 1024;

const COMMA = 0x2c;

export const CSV_HEADER = Buffer.from(`${COLUMNS.map(({ name }) => name).join(',')}\r\n`);

const NO_JUDGEMENT = Buffer.from(',,,');
const NO_SPREAD = Buffer.from(',,,\r\n');
const LINE_END = Buffer.from('\r\n');

/** `2026-05-04T`, kept as long as the day lasts. */
class TimeBytes {
  #day = Number.NaN;
  #head: Uint8Array = new Uint8Array();

  write(text: ByteText, time: number): void {
    const day = Math.floor(time / DAY_ms) * DAY_ms;
    if (day !== this.#day) {
      this.#day = day;
      this.#head = Buffer.from(formatTime(day).slice(0, 11));
    }
    const within_ms = time - day;
    const within_s = Math.floor(within_ms / 1000);
    const within_min = Math.floor(within_s / 60);
    if (within_s * 1000 !== within_ms) text.ascii(formatTime(time));
    else {
      text.copy(this.#head);
      text.twoDigits(Math.floor(within_min / 60));
      text.byte(COLON);
      text.twoDigits(within_min % 60);
      text.byte(COLON);
      text.twoDigits(within_s % 60);
      text.byte(ZULU);
    }
  }
}

const COLON = 0x3a;
const ZULU = 0x5a;

interface Part {
  readonly column: ExportQuantity;
  /** All between the time and the value. */
  readonly place: Uint8Array;
  readonly isCorrected: boolean;
}

export class CsvWriter {
  readonly #text = new ByteText(ROOM_bytes);
  readonly #time = new TimeBytes();

  /** The rows of a chunk. */
  chunk(chunk: ExportChunk): Buffer {
    const { time } = chunk;
    const parts = chunk.quantities.map((column): Part => {
      const isCorrected = column.corrected !== null && column.corrected !== column.raw;
      return { column, place: placeBytes(chunk, column), isCorrected };
    });
    for (let at = 0; at < time.length; at += 1)
      for (const part of parts) if (part.column.raw[at] != null) this.#row(time[at] as number, part, at);
    return this.#text.take();
  }

  #row(time: number, { column, place, isCorrected }: Part, at: number): void {
    const { raw, corrected, uncertainty, flags, judged, spread } = column;
    const text = this.#text;
    const flag = flags?.[at] ?? null;
    text.ensure(NUMBERS_bytes + place.length + (flag?.length ?? 0));
    this.#time.write(text, time);
    text.copy(place);
    const before = text.length;
    text.number(raw[at] as number);
    const after = text.length;
    text.byte(COMMA);
    if (isCorrected) this.#number(corrected?.[at]);
    else text.again(before, after);
    text.byte(COMMA);
    this.#number(uncertainty?.[at]);
    text.byte(COMMA);
    if (flag !== null) text.ascii(flag);
    this.#judgement(judged?.[at]);
    if (spread === null) text.copy(NO_SPREAD);
    else {
      for (const values of [spread.count, spread.least, spread.greatest]) {
        text.byte(COMMA);
        this.#number(values[at]);
      }
      text.copy(LINE_END);
    }
  }

  #number(value: number | null | undefined): void {
    if (value != null) this.#text.number(value);
  }

  #judgement(judged: JudgedHour | null | undefined): void {
    const text = this.#text;
    if (!judged) {
      text.copy(NO_JUDGEMENT);
      return;
    }
    text.byte(COMMA);
    this.#number(judged.expected);
    text.byte(COMMA);
    this.#number(judged.band);
    text.byte(COMMA);
    this.#number(judged.excess);
  }
}

function placeBytes({ place, treatment, of }: ExportChunk, { quantity, unit }: ExportQuantity): Uint8Array {
  const { site, bed, probe, position } = place;
  const cells = [
    ...[site, bed ?? '', treatment === null ? '' : csvCell(textCell(treatment)), probe],
    ...[position?.x ?? '', position?.y ?? '', position?.depth ?? '', quantity, unit, of],
  ];
  return Buffer.from(`,${cells.join(',')},`);
}

/** An export as CSV, piece by piece. */
export async function* csvOf(chunks: ExportChunks): AsyncGenerator<Buffer> {
  yield CSV_HEADER;
  const writer = new CsvWriter();
  for await (const chunk of chunks) {
    const bytes = writer.chunk(chunk);
    if (bytes.length > 0) yield bytes;
  }
}
