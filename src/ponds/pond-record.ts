import type { AgreementTermEntity } from './agreement-term.entity.js';
import type { EquipmentEntity } from './equipment.entity.js';
import type { PondEntity } from './pond.entity.js';
import type { PondContactEntity } from './pond-contact.entity.js';
import type { StockGroupEntity } from './stock-group.entity.js';

/** A contact with the email address of the person behind it; without one the office calls. */
export type PondContact = PondContactEntity & { readonly email: string | null };

/** A pond with all that belongs to it. */
export interface PondRecord {
  readonly pond: PondEntity;
  /** The register as it stands: removed machines are left out. */
  readonly equipment: readonly EquipmentEntity[];
  readonly stock: readonly StockGroupEntity[];
  readonly agreement: readonly AgreementTermEntity[];
  /** Current ones first, then those that ended. */
  readonly contacts: readonly PondContact[];
}
