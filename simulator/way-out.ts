/** From what is measured to what is sent: at the times of readings, and as the probes' faults and the gateway let it. */
import { type Delivery, Gateway } from './delivery.js';
import type { Measured } from './measured.js';
import { ProbeFaults } from './probe-faults.js';
import type { Scenario } from './scenario.js';

export class WayOut {
  readonly #every_s: number;
  readonly #gateway: Gateway;
  readonly #faultsOf: (probe: string) => ProbeFaults;

  constructor(scenario: Scenario, part: string, seed: number) {
    this.#every_s = scenario.everyMinutes * 60;
    this.#gateway = new Gateway(part, seed, scenario.faults);
    const faults = new Map<string, ProbeFaults>();
    this.#faultsOf = (probe) => {
      const known = faults.get(probe) ?? new ProbeFaults(scenario, probe, seed);
      faults.set(probe, known);
      return known;
    };
  }

  send(time_s: number, measured: Measured): Delivery[] {
    if (time_s % this.#every_s !== 0) return [];
    const told = measured.flatMap(([probe, values]) => {
      const reading = this.#faultsOf(probe).told({ ...values, time_s });
      return reading ? [[probe, reading] as const] : [];
    });
    return this.#gateway.send(time_s, told);
  }
}
