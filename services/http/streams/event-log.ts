/** The newest events of a stream, so that a reader who was away for a moment hears what it missed. */
import type { LiveEvent } from '../ports-live.js';
import { eventText } from './event-text.js';

export class EventLog {
  readonly #run: string;
  readonly #most: number;
  readonly #texts: string[] = [];
  /** Number of the newest event; 0 before the first. */
  #newest = 0;

  /**
   * @param run told apart from other runs of the service, whose numbers mean other events
   * @param most events kept
   */
  constructor(run: string, most: number) {
    this.#run = run;
    this.#most = most;
  }

  /** @returns its text, with its id */
  add({ event, data }: LiveEvent): string {
    this.#newest += 1;
    const text = eventText({ id: this.#idOf(this.#newest), event, data });
    this.#texts.push(text);
    if (this.#texts.length > this.#most) this.#texts.shift();
    return text;
  }

  /** What follows the event with this id; where that is not known any more, one event `missed`: ask for everything. */
  after(id: string): string {
    const [run, number] = [id.slice(0, id.lastIndexOf('-')), id.slice(id.lastIndexOf('-') + 1)];
    const missed = /^\d{1,15}$/.test(number) ? this.#newest - Number(number) : Number.NaN;
    if (run === this.#run && missed >= 0 && missed <= this.#texts.length)
      return this.#texts.slice(this.#texts.length - missed).join('');
    return eventText({ id: this.#idOf(this.#newest), event: 'missed', data: {} });
  }

  #idOf(number: number): string {
    return `${this.#run}-${number}`;
  }
}
