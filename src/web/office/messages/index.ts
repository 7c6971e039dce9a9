import { MailPreviewController } from './mail-preview.controller.js';
import { MessagesController } from './messages.controller.js';

/** The preview first: its address would be read as that of a mail. */
export const MESSAGES_CONTROLLERS = [MailPreviewController, MessagesController];
