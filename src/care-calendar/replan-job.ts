import { Injectable, type OnModuleInit } from '@nestjs/common';
import { CompaniesService } from '../accounts/index.js';
import { WeatherService } from '../climate/index.js';
import { type Firing, JobsService } from '../jobs/index.js';
import { AppLogger } from '../platform/logger.js';
import { type PondSite, PondsService } from '../ponds/index.js';
import { ReplanningService } from './replanning.service.js';

export const NIGHTLY_REPLAN_JOB = 'nightly-replan';

/** The recurring job of this folder; when it runs stands in `config/jobs.yaml`. */
@Injectable()
export class ReplanJob implements OnModuleInit {
  constructor(
    private readonly jobs: JobsService,
    private readonly companies: CompaniesService,
    private readonly replanning: ReplanningService,
    private readonly ponds: PondsService,
    private readonly weather: WeatherService,
    private readonly logger: AppLogger,
  ) {}

  onModuleInit(): void {
    this.jobs.register(NIGHTLY_REPLAN_JOB, (firing) => this.replanEverything(firing));
  }

  /** Every pond of every company. When the program stops, what is left waits for the next firing. */
  async replanEverything({ signal }: Pick<Firing, 'signal'>): Promise<string> {
    const weather = await this.askWeather(signal);
    const sum = { ponds: 0, pondsChanged: 0, failed: 0 };
    for (const company of await this.companies.all()) {
      if (signal.aborted) return `stopped after ${sum.ponds} ponds`;
      const report = await this.replanning.replanAll(company.id);
      sum.ponds += report.ponds;
      sum.pondsChanged += report.pondsChanged;
      sum.failed += report.failed.length;
      for (const { pondId, reason } of report.failed) this.logger.warn(`pond ${pondId}: ${reason}`, NIGHTLY_REPLAN_JOB);
    }
    return `${weather}${sum.ponds} ponds planned, ${sum.pondsChanged} calendars changed, ${sum.failed} failed`;
  }

  /** Before planning, so that the nights ahead are known to it. A provider that is down costs a note, and nothing else. */
  private async askWeather(signal: AbortSignal): Promise<string> {
    if (!this.weather.isSetUp) return '';
    const sites: PondSite[] = [];
    for (const company of await this.companies.all()) sites.push(...(await this.ponds.activeSites(company.id)));
    const { got, failed } = await this.weather.refresh(sites, signal);
    return `${got} forecasts got and ${failed} not, `;
  }
}
