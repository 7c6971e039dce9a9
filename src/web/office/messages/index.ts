import { MessagesController } from './messages.controller.js';

export const MESSAGES_CONTROLLERS = [MessagesController];
