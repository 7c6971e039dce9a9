export { ClimateModule } from './climate.module.js';
export { ClimateService, type ClimateSite, type NearStation } from './climate.service.js';
export {
  ForecastFileError,
  type ForecastFileRequest,
  type ForecastFileResult,
  runForecastFile,
} from './forecast-file/index.js';
export { NO_WEATHER, type PlaceWeather, placeKey, WeatherService } from './weather/weather.service.js';
