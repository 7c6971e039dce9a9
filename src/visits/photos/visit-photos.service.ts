import { Injectable } from '@nestjs/common';
import { IsNull } from 'typeorm';
import type { Actor } from '../../accounts/index.js';
import { InvalidValueError } from '../../core/errors.js';
import { Database } from '../../database/index.js';
import { Clock } from '../../platform/clock.js';
import type { CompanyId, VisitId } from '../../platform/ids.js';
import { VisitRecords } from '../visit-records.js';
import { VisitTrail } from '../visit-trail.js';
import { PhotoNotFoundError, PhotoRefusedError } from '../visits.errors.js';
import { type PhotoSize, PhotoStore } from './photo-store.js';
import { preparedPicture, sha256 } from './prepared-picture.js';
import { VisitPhotoEntity } from './visit-photo.entity.js';

/** More than anybody looks at; a phone that sends without end is stopped here. */
const MOST_PER_VISIT = 60;
const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

/** The photos of visits. They come at any time, before the closing or after it. */
@Injectable()
export class VisitPhotos {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly records: VisitRecords,
    private readonly trail: VisitTrail,
    private readonly store: PhotoStore,
  ) {}

  /**
   * Keeps a photo under the id made on the phone. The same photo sent again changes nothing; one that was removed
   * meanwhile stays removed.
   * @returns whether it was new
   * @throws VisitNotFoundError, PhotoRefusedError, PhotoStoreFullError
   */
  async add(actor: Actor, visitId: VisitId, photoId: string, bytes: Buffer): Promise<{ readonly isNew: boolean }> {
    if (!UUID.test(photoId)) throw new InvalidValueError('photo id', photoId, 'Send a UUID, lower case.');
    const { companyId } = actor;
    const visit = await this.records.get(companyId, visitId);
    const sentHash = sha256(bytes);
    if (await this.isKept(companyId, visitId, photoId, sentHash)) return { isNew: false };

    const picture = await preparedPicture(bytes);
    const { contentHash, widthPx, heightPx } = picture;
    // The files first: a row never points at a picture that is not there.
    await this.store.put(companyId, contentHash, picture);
    return this.database.unitOfWork('keep a photo', async () => {
      await this.records.hold(companyId, visitId);
      if (await this.isKept(companyId, visitId, photoId, sentHash)) return { isNew: false };
      const rows = this.database.company(companyId);
      if ((await rows.count(VisitPhotoEntity, { visitId })) >= MOST_PER_VISIT) {
        throw new PhotoRefusedError('too-large', `A visit keeps at most ${MOST_PER_VISIT} photos.`);
      }
      const row: Omit<VisitPhotoEntity, 'companyId'> = {
        id: photoId,
        visitId,
        pondId: visit.pondId,
        sentHash,
        contentHash,
        widthPx,
        heightPx,
        storedBytes: picture.full.length + picture.thumb.length,
        takenBy: actor.personId,
        receivedAt: this.clock.instant(),
        removedAt: null,
        removedBy: null,
      };
      try {
        await rows.insert(VisitPhotoEntity, row);
      } catch (error) {
        if (Database.isUniqueViolation(error)) throw idTaken();
        throw error;
      }
      await this.trail.note(visit, 'photo-added', actor.personId, { after: { photoId } });
      return { isNew: true };
    });
  }

  /** Without those that were removed, oldest first. */
  ofVisit(companyId: CompanyId, visitId: VisitId): Promise<VisitPhotoEntity[]> {
    const where = { visitId, removedAt: IsNull() };
    return this.database.company(companyId).find(VisitPhotoEntity, { where, order: { receivedAt: 'ASC', id: 'ASC' } });
  }

  /** @throws PhotoNotFoundError also for a photo that was removed, or is on another visit */
  async picture(
    companyId: CompanyId,
    visitId: VisitId,
    photoId: string,
    size: PhotoSize,
  ): Promise<{ readonly photo: VisitPhotoEntity; readonly jpeg: Buffer }> {
    const where = { id: photoId, visitId, removedAt: IsNull() };
    const photo = await this.database.company(companyId).findOne(VisitPhotoEntity, where);
    const jpeg = photo && (await this.store.read(companyId, photo.contentHash, size));
    if (!photo || !jpeg) throw new PhotoNotFoundError(photoId);
    return { photo, jpeg };
  }

  /** Takes a photo away for good; that there was one stays in the trail. Said twice, the first time stays. */
  async remove(actor: Actor, visitId: VisitId, photoId: string, because: string): Promise<void> {
    const why = because.trim();
    if (why === '' || why.length > 500) {
      throw new InvalidValueError('reason', why.slice(0, 40), 'Say why, in at most 500 characters.');
    }
    const { companyId } = actor;
    const unused = await this.database.unitOfWork('remove a photo', async () => {
      const visit = await this.records.hold(companyId, visitId);
      const rows = this.database.company(companyId);
      const photo = await rows.findOne(VisitPhotoEntity, { id: photoId, visitId });
      if (!photo) throw new PhotoNotFoundError(photoId);
      if (photo.removedAt !== null) return null;
      const mark = { removedAt: this.clock.instant(), removedBy: actor.personId };
      await rows.update(VisitPhotoEntity, { id: photoId }, mark);
      await this.trail.note(visit, 'photo-removed', actor.personId, { before: { photoId }, because: why });
      const { contentHash } = photo;
      const isUsed = (await rows.count(VisitPhotoEntity, { contentHash, removedAt: IsNull() })) > 0;
      return isUsed ? null : contentHash;
    });
    if (unused !== null) await this.store.remove(companyId, unused);
  }

  /** Whether this very photo is there; another picture under its id is refused. */
  private async isKept(companyId: CompanyId, visitId: VisitId, photoId: string, sentHash: string): Promise<boolean> {
    const kept = await this.database.company(companyId).findOne(VisitPhotoEntity, { id: photoId });
    if (!kept) return false;
    if (kept.visitId !== visitId || kept.sentHash !== sentHash) throw idTaken();
    return true;
  }
}

function idTaken(): PhotoRefusedError {
  return new PhotoRefusedError('id-taken', 'Another photo has this id already. Send it again under a new one.');
}
