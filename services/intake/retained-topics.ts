/** Counts the topics that hold a retained message: each stays in memory until it is cleared. */
export class RetainedTopics {
  readonly #most: number;
  readonly #topics = new Set<string>();

  /** @param most topics that may hold one at a time */
  constructor(most: number) {
    this.#most = most;
  }

  /**
   * Whether a message may be retained; an empty payload clears its topic [MQTT-3.3.1-10] and always may.
   */
  admit(topic: string, payload_bytes: number): boolean {
    if (payload_bytes === 0) this.#topics.delete(topic);
    else if (this.#topics.has(topic) || this.#topics.size < this.#most) this.#topics.add(topic);
    else return false;
    return true;
  }
}
