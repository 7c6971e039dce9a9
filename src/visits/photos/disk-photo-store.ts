import { mkdir, open, readFile, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { Inject, Injectable } from '@nestjs/common';
import { SETTINGS, type Settings } from '../../config/index.js';
import { type CompanyId, newId } from '../../platform/ids.js';
import { PhotoStoreFullError } from '../visits.errors.js';
import { type PhotoSize, PhotoStore } from './photo-store.js';

const COMPANY = /^[0-9a-f-]{36}$/;
const HASH = /^[0-9a-f]{64}$/;
const SUFFIX: Readonly<Record<PhotoSize, string>> = { full: '.jpg', thumb: '.small.jpg' };
/** Out of room: the disk, or what this user may take of it. */
const NO_ROOM = ['ENOSPC', 'EDQUOT'];

/** Pictures as files below `photos/` in the data directory: `<company>/<first two of the hash>/<hash>.jpg`. */
@Injectable()
export class DiskPhotoStore extends PhotoStore {
  constructor(@Inject(SETTINGS) private readonly settings: Pick<Settings, 'dataDirectory'>) {
    super();
  }

  async put(companyId: CompanyId, contentHash: string, picture: Readonly<Record<PhotoSize, Buffer>>): Promise<void> {
    try {
      // The full picture comes last: where it is, the small one is too.
      for (const size of ['thumb', 'full'] as const) {
        await this.writeFile(this.fileOf(companyId, contentHash, size), picture[size]);
      }
    } catch (error) {
      if (NO_ROOM.includes((error as NodeJS.ErrnoException).code ?? '')) throw new PhotoStoreFullError();
      throw error;
    }
  }

  async read(companyId: CompanyId, contentHash: string, size: PhotoSize): Promise<Buffer | null> {
    try {
      return await readFile(this.fileOf(companyId, contentHash, size));
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
      throw error;
    }
  }

  async remove(companyId: CompanyId, contentHash: string): Promise<void> {
    for (const size of ['full', 'thumb'] as const) {
      await rm(this.fileOf(companyId, contentHash, size), { force: true });
    }
  }

  /** A half-written file never stands under its name. */
  private async writeFile(file: string, bytes: Buffer): Promise<void> {
    await mkdir(path.dirname(file), { recursive: true });
    const unfinished = `${file}.${newId()}.part`;
    try {
      const handle = await open(unfinished, 'wx', 0o600);
      try {
        await handle.writeFile(bytes);
        await handle.sync();
      } finally {
        await handle.close();
      }
      await rename(unfinished, file);
    } catch (error) {
      await rm(unfinished, { force: true });
      throw error;
    }
  }

  private fileOf(companyId: CompanyId, contentHash: string, size: PhotoSize): string {
    if (!COMPANY.test(companyId) || !HASH.test(contentHash)) throw new Error('Not the name of a stored photo.');
    const { dataDirectory } = this.settings;
    return path.join(dataDirectory, 'photos', companyId, contentHash.slice(0, 2), contentHash + SUFFIX[size]);
  }
}
