export { loadCareRules } from './care-rules.js';
export { loadCautions } from './cautions.js';
export { JOB_SCHEDULES, type JobSchedule, loadJobSchedules } from './job-schedules.js';
export { type Dechlorinators, loadDechlorinators } from './products.js';
export {
  type BounceSettings,
  type DkimSettings,
  type LogLevel,
  type MailPaceSettings,
  SETTINGS,
  type Settings,
  type SmtpSettings,
  type WeatherSettings,
} from './settings.js';
export { SettingsError } from './settings-faults.js';
export { loadSettings, prepareDataDirectory, type SettingsSources } from './settings-loader.js';
export { loadStationGaps, loadStationOrigins, loadStations, type StationOrigin } from './stations.js';
export { CARE_RULES, CAUTIONS, DECHLORINATORS, STATIONS, WORDINGS } from './tokens.js';
export { loadWordings } from './wordings.js';
