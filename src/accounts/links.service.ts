import { Injectable } from '@nestjs/common';
import { IsNull } from 'typeorm';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { type CompanyId, newId, newToken, type PersonId } from '../platform/ids.js';
import { type LinkPurpose, LinkTokenEntity } from './link-token.entity.js';
import { tokenHash } from './token-hash.js';

export interface NewLink {
  readonly purpose: LinkPurpose;
  readonly companyId: CompanyId;
  readonly personId: PersonId | null;
  /** What it opens: a task, a pond, a visit, a contact. */
  readonly objectId: string;
  /** Instant; null never ends by itself. */
  readonly expiresAt: string | null;
}

export interface LinkDraft {
  readonly token: string;
  readonly row: LinkTokenEntity;
}

/** 32 bytes in base64url. */
const TOKEN_FORM = /^[A-Za-z0-9_-]{43}$/;

/** Links that carry their own right: one purpose, one object. The token is random; only its SHA-256 is stored. */
@Injectable()
export class LinksService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  /** Makes a link and answers its token, which cannot be had again. */
  async issue(link: NewLink): Promise<string> {
    const draft = this.draft(link);
    await this.store([draft]);
    return draft.token;
  }

  /** A link that opens nothing before it is stored: a mail has several, and they are stored at one go. */
  draft(link: NewLink): LinkDraft {
    const token = newToken();
    const { companyId, ...rest } = link;
    const row: LinkTokenEntity = {
      id: newId(this.clock.now().toMillis()),
      tokenHash: tokenHash(token),
      issuedByCompanyId: companyId,
      ...rest,
      usedAt: null,
      revokedAt: null,
      createdAt: this.clock.instant(),
    };
    return { token, row };
  }

  async store(drafts: readonly LinkDraft[]): Promise<void> {
    const rows = drafts.map(({ row }) => row);
    await this.database.unitOfWork('issue links', () => this.database.shared().insert(LinkTokenEntity, rows));
  }

  /** The link of a token. Unknown, of another purpose, expired and revoked are all the same null. A used one is found. */
  async resolve(purpose: LinkPurpose, token: string): Promise<LinkTokenEntity | null> {
    const hash = tokenHash(TOKEN_FORM.test(token) ? token : '');
    const link = await this.database.shared().findOne(LinkTokenEntity, { tokenHash: hash });
    if (!link || link.purpose !== purpose || link.revokedAt !== null) return null;
    return link.expiresAt !== null && link.expiresAt <= this.clock.instant() ? null : link;
  }

  /** Notes the use; answers whether it was the first, so that a single-use link can be refused the second time. */
  async markUsed(linkId: string): Promise<boolean> {
    const changed = await this.database.unitOfWork('use a link', () =>
      this.database
        .shared()
        .update(LinkTokenEntity, { id: linkId, usedAt: IsNull() }, { usedAt: this.clock.instant() }),
    );
    return changed === 1;
  }

  /** Ends every link to an object; answers how many. */
  async revokeFor(objectId: string): Promise<number> {
    return this.revoke({ objectId });
  }

  /** Ends every link a company has given to a person, e.g. when a house is sold; answers how many. */
  async revokeForPerson(companyId: CompanyId, personId: PersonId): Promise<number> {
    return this.revoke({ issuedByCompanyId: companyId, personId });
  }

  private async revoke(which: { objectId: string } | { issuedByCompanyId: string; personId: string }): Promise<number> {
    return this.database.unitOfWork('revoke links', () =>
      this.database
        .shared()
        .update(LinkTokenEntity, { ...which, revokedAt: IsNull() }, { revokedAt: this.clock.instant() }),
    );
  }
}
