import { Injectable } from '@nestjs/common';
import { type LinkPurpose, LinksService, type LinkTokenEntity } from '../../accounts/index.js';
import type { PersonId } from '../../platform/ids.js';
import { type AskedTask, type Homeowner, HomeownersService, TaskAnswers } from '../../reminders/index.js';
import { UnknownLinkError } from './unknown-link.filter.js';

export interface OpenedLink {
  readonly link: LinkTokenEntity;
  readonly homeowner: Homeowner;
}

/** What stands behind a link, if it still opens something for its person. Reads only. */
@Injectable()
export class OpenedLinks {
  constructor(
    private readonly links: LinksService,
    private readonly homeowners: HomeownersService,
    private readonly answers: TaskAnswers,
  ) {}

  /** @throws UnknownLinkError also when the person has no pond of this company any more */
  async homeowner(purpose: LinkPurpose, token: string): Promise<OpenedLink> {
    const link = await this.link(purpose, token);
    const homeowner = await this.homeowners.find(link.issuedByCompanyId, link.personId as PersonId);
    if (!homeowner) throw new UnknownLinkError();
    return { link, homeowner };
  }

  /** @throws UnknownLinkError */
  async task(purpose: 'task-done' | 'task-not-now', token: string): Promise<AskedTask> {
    const link = await this.link(purpose, token);
    const asked = await this.answers.find(link.issuedByCompanyId, link.personId, link.objectId);
    if (!asked) throw new UnknownLinkError();
    return asked;
  }

  /** A task from the my-pond page. @throws UnknownLinkError when it is not on a pond of this person */
  async taskOf({ link }: OpenedLink, taskId: string): Promise<AskedTask> {
    const asked = await this.answers.find(link.issuedByCompanyId, link.personId, taskId);
    if (!asked) throw new UnknownLinkError();
    return asked;
  }

  private async link(purpose: LinkPurpose, token: string): Promise<LinkTokenEntity> {
    const link = await this.links.resolve(purpose, token);
    if (!link || link.personId === null) throw new UnknownLinkError();
    return link;
  }
}
