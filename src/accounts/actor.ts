import type { CompanyId, PersonId } from '../platform/ids.js';
import type { SessionEntity } from './session.entity.js';

export type Role = SessionEntity['role'];

/** Who asks: the person of a session, acting in one company in one role. */
export interface Actor {
  readonly personId: PersonId;
  readonly name: string;
  readonly email: string;
  readonly companyId: CompanyId;
  readonly companyName: string;
  readonly role: Role;
  /** The person's own choice, else the company's. */
  readonly units: 'us' | 'metric';
  /** The company's, IANA. */
  readonly timeZone: string;
  readonly isDemo: boolean;
  readonly sessionId: string;
  /** Goes into every form of this session. */
  readonly formToken: string;
}

/** Where a person may act. */
export interface Place {
  readonly companyId: CompanyId;
  readonly role: Role;
}
