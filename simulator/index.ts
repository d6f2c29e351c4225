/** What the rest of the program may use of the simulator. */
export { type LoadOptions, listScenarios, loadScenario } from './built-in.js';
export { type Published, type PublishOptions, publish } from './publish.js';
export type { Scenario } from './scenario.js';
export { simulateSeason } from './season.js';
export { siteOf, type Truth, truthOf } from './site-of.js';
