import { HowItIsComputedController } from './how-it-is-computed.controller.js';
import { stationSourcesProvider } from './station-sources.js';

export const HOW_IT_IS_COMPUTED_CONTROLLERS = [HowItIsComputedController];
export const HOW_IT_IS_COMPUTED_PROVIDERS = [stationSourcesProvider];
