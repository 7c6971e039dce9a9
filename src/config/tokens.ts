/** Values of the folder `config/`, as read and checked at start, by the tokens under which Nest hands them out. */

/** `readonly Station[]` of core/climate/station. */
export { STATIONS } from './stations.js';
/** `readonly CareRule[]` of core/care/care-rule. */
export const CARE_RULES = Symbol('care-rules');
/** `Dechlorinators` of products. */
export const DECHLORINATORS = Symbol('dechlorinators');
/** `readonly Caution[]` of core/care/caution. */
export const CAUTIONS = Symbol('cautions');
/** `ReadonlyMap<string, Wording>` of core/care/wording, by language; `en` is always there. */
export const WORDINGS = Symbol('wordings');
