/** What the rest of the program may use of the simulator. */
export { type LoadOptions, listScenarios, loadScenario } from './built-in.js';
export { type SimulatedDay, simulateDaysWithTruth, type TrueHour } from './days.js';
export { EVALUATION_SCENARIOS } from './evaluation.js';
export { inspectionsOf, type PlannedInspection } from './inspections.js';
export type { TrueSand } from './measured.js';
export { type Published, type PublishOptions, publish } from './publish.js';
export { rot_W } from './rot.js';
export type { Scenario } from './scenario.js';
export { simulateSeason } from './season.js';
export { siteOf } from './site-of.js';
export { dayOfExcess, trueExcessAt } from './true-excess.js';
export { type Truth, truthOf } from './truth.js';
