// Adds up the reports of the test runs and prints the closing line. Fails where a report is missing or empty.
import { existsSync, readFileSync } from 'node:fs';

let passed = 0;
let failed = 0;
let skipped = 0;
for (const file of process.argv.slice(2)) {
  if (!existsSync(file)) {
    console.log(`no report ${file}: the run ended before its tests`);
    failed += 1;
    continue;
  }
  const report = JSON.parse(readFileSync(file, 'utf8'));
  if (report.numTotalTests === 0) failed += 1;
  passed += report.numPassedTests;
  failed += report.numFailedTests;
  skipped += report.numPendingTests + report.numTodoTests;
  if (!report.success && report.numFailedTests === 0) failed += 1;
}
if (skipped > 0) console.log(`${skipped} skipped: nothing is skipped here`);
console.log(`${passed} passed, ${failed + skipped} failed`);
process.exit(failed + skipped > 0 ? 1 : 0);
