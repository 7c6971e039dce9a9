import { MyRoundController } from './my-round.controller.js';
import { PondSaidFor } from './pond-said-for.js';
import { TaskCards } from './task-cards.js';
import { VisitClosingController } from './visit-closing.controller.js';

export const TECHNICIAN_CONTROLLERS = [MyRoundController, VisitClosingController];
/** Also used by the office's visit pages. */
export const TECHNICIAN_PROVIDERS = [TaskCards, PondSaidFor];
