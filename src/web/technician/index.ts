import { RoundApiController } from '../api/round-api.controller.js';
import { MyRoundController } from './my-round.controller.js';
import { PhoneAppController } from './phone-app.controller.js';
import { PondBefore } from './pond-before.js';
import { PondSaidFor } from './pond-said-for.js';
import { RoundInventory } from './round-inventory.js';
import { RoundPages } from './round-pages.js';
import { TaskCards } from './task-cards.js';
import { VisitClosingController } from './visit-closing.controller.js';

export const TECHNICIAN_CONTROLLERS = [
  MyRoundController,
  VisitClosingController,
  RoundApiController,
  PhoneAppController,
];
/** Task cards and verdicts are also used by the office's visit pages. */
export const TECHNICIAN_PROVIDERS = [TaskCards, PondSaidFor, PondBefore, RoundPages, RoundInventory];
