import { VisitPhotoController } from './visit-photo.controller.js';

export const PHOTO_CONTROLLERS = [VisitPhotoController];

export { sendPhoto, sizeAsked } from './photo-answer.js';
