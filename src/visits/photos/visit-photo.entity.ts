import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, instantColumn, integerColumn, keyColumn, textColumn } from '../../database/columns.js';
import type { CompanyOwned } from '../../database/rows.js';
import type { CompanyId, PersonId, PondId, VisitId } from '../../platform/ids.js';

/** A photo taken on a visit. The picture itself lies in the photo store under its content hash. */
@Entity('visit_photo')
export class VisitPhotoEntity implements CompanyOwned {
  /** Made on the phone: sent twice, it is still one photo. */
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('visit_id'))
  visitId!: VisitId;

  @Column(idColumn('pond_id'))
  pondId!: PondId;

  /** SHA-256 of the bytes as they were sent, which tells a repetition from another picture. */
  @Column(textColumn('sent_hash'))
  sentHash!: string;

  /** SHA-256 of the stored JPEG. */
  @Column(textColumn('content_hash'))
  contentHash!: string;

  @Column(integerColumn('width_px'))
  widthPx!: number;

  @Column(integerColumn('height_px'))
  heightPx!: number;

  @Column(integerColumn('stored_bytes'))
  storedBytes!: number;

  @Column(idColumn('taken_by'))
  takenBy!: PersonId;

  @Column(instantColumn('received_at'))
  receivedAt!: string;

  @Column(instantColumn('removed_at', { nullable: true }))
  removedAt!: string | null;

  @Column(idColumn('removed_by', { nullable: true }))
  removedBy!: PersonId | null;
}
