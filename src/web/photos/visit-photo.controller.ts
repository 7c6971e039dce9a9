import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Put, Query, Req, Res } from '@nestjs/common';
import type { Request, Response } from 'express';
import type { Actor } from '../../accounts/index.js';
import { LARGEST_PHOTO_BYTES, VisitPhotos } from '../../visits/index.js';
import { typedFields } from '../forms/form-faults.js';
import { CurrentActor, Roles } from '../shell/access.js';
import { sendPhoto, sizeAsked } from './photo-answer.js';
import { readBody } from './read-body.js';

/** Photos of a visit, for the people of its company. */
@Controller()
@Roles('owner', 'office', 'technician')
export class VisitPhotoController {
  constructor(private readonly photos: VisitPhotos) {}

  /** The bytes of one photo. Idempotent by its id: 201 the first time, 200 for the same photo again. */
  @Put('api/visits/:visitId/photos/:photoId')
  async put(
    @CurrentActor() actor: Actor,
    @Param('visitId') visitId: string,
    @Param('photoId') photoId: string,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const bytes = await readBody(request, LARGEST_PHOTO_BYTES);
    const { isNew } = await this.photos.add(actor, visitId, photoId, bytes);
    response.status(isNew ? 201 : 200).json({ photoId });
  }

  @Get('visits/:visitId/photos/:photoId')
  async show(
    @CurrentActor() actor: Actor,
    @Param('visitId', ParseUUIDPipe) visitId: string,
    @Param('photoId', ParseUUIDPipe) photoId: string,
    @Query('size') asked: unknown,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const size = sizeAsked(asked);
    const picture = await this.photos.picture(actor.companyId, visitId, photoId, size);
    sendPhoto(request, response, picture, size);
  }

  @Post('visits/:visitId/photos/:photoId/removal')
  @Roles('owner', 'office')
  async remove(
    @CurrentActor() actor: Actor,
    @Param('visitId', ParseUUIDPipe) visitId: string,
    @Param('photoId', ParseUUIDPipe) photoId: string,
    @Body() body: unknown,
    @Res() response: Response,
  ): Promise<void> {
    await this.photos.remove(actor, visitId, photoId, typedFields(body).why ?? '');
    response.redirect(303, `/visits/${visitId}?did=photo-removed`);
  }
}
