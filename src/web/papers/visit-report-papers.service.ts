import { Injectable } from '@nestjs/common';
import { CompaniesService } from '../../accounts/index.js';
import type { UnitSystem } from '../../core/units/show.js';
import { Clock } from '../../platform/clock.js';
import type { CompanyId } from '../../platform/ids.js';
import { ComingDays, VisitReportMails } from '../../reminders/index.js';
import { type VisitHistory, VisitPhotos } from '../../visits/index.js';
import { printedPaper } from './paper.js';
import { PHOTOS_ON_PAPER, visitReportPaper } from './visit-report.paper.js';

/** The report of a visit as a paper. */
@Injectable()
export class VisitReportPapers {
  constructor(
    private readonly companies: CompaniesService,
    private readonly reports: VisitReportMails,
    private readonly coming: ComingDays,
    private readonly photos: VisitPhotos,
    private readonly clock: Clock,
  ) {}

  async pdf(companyId: CompanyId, history: VisitHistory, units: UnitSystem): Promise<Buffer> {
    const { visit, pond, photos } = history;
    const today = this.clock.today(pond.pond.timeZone);
    const [next] = await this.coming.nextVisits(companyId, [pond.pond], today);
    const pictures = photos
      .slice(0, PHOTOS_ON_PAPER)
      .map(({ id }) => this.photos.picture(companyId, visit.id, id, 'full').catch(() => null));
    return printedPaper(
      visitReportPaper({
        visit: this.reports.spoken(history, units),
        sender: await this.companies.get(companyId),
        sheet: units === 'us' ? 'LETTER' : 'A4',
        photos: (await Promise.all(pictures)).flatMap((picture) => (picture ? [picture.jpeg] : [])),
        nextVisit: next ? `${next.when}. ${next.what}` : null,
      }),
    );
  }
}

/** A name for the file, of signs that every system takes. */
export function fileName(...parts: readonly string[]): string {
  const plain = parts
    .join(' ')
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9]+/g, '-');
  return `${
    plain
      .replace(/^-+|-+$/g, '')
      .toLowerCase()
      .slice(0, 80) || 'paper'
  }.pdf`;
}
