import type { CompanyId } from '../../platform/ids.js';

export type PhotoSize = 'full' | 'thumb';

/** Where pictures lie, by the hash of their content. A company's pictures lie apart from those of others. */
export abstract class PhotoStore {
  /** Keeps both sizes of a picture, safe against a power cut once it answers. The same picture twice is one. */
  abstract put(companyId: CompanyId, contentHash: string, picture: Readonly<Record<PhotoSize, Buffer>>): Promise<void>;

  /** Null where there is none. */
  abstract read(companyId: CompanyId, contentHash: string, size: PhotoSize): Promise<Buffer | null>;

  abstract remove(companyId: CompanyId, contentHash: string): Promise<void>;
}
