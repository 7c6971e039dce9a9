export { ForecastFileError } from './forecast-file-error.js';
export { type ForecastFileRequest, type ForecastFileResult, runForecastFile } from './run-forecast-file.js';
