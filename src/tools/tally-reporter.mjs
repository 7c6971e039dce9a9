// Jest reporter: the last line of a run is `N passed, N failed`, for people and for programs.
export default class TallyReporter {
  onRunComplete(_contexts, results) {
    const brokenSuites = results.testResults.filter((suite) => suite.testExecError).length;
    const failed = results.numFailedTests + brokenSuites;
    this.failed = failed;
    process.stdout.write(`\n${results.numPassedTests} passed, ${failed} failed\n`);
  }
}
