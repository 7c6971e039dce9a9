import { MyRoundController } from './my-round.controller.js';
import { PondSaidFor } from './pond-said-for.js';
import { TaskCards } from './task-cards.js';
import { VisitClosingController } from './visit-closing.controller.js';

/** Pages of the technician's phone. */
export const TECHNICIAN_CONTROLLERS = [MyRoundController, VisitClosingController];
export const TECHNICIAN_PROVIDERS = [PondSaidFor, TaskCards];
