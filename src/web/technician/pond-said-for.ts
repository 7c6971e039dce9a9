import { Inject, Injectable } from '@nestjs/common';
import { CompaniesService } from '../../accounts/index.js';
import { DECHLORINATORS, type Dechlorinators } from '../../config/index.js';
import type { UnitSystem } from '../../core/units/show.js';
import { DEFAULT_TAP_CHLORINE_MG_PER_L } from '../../core/water/chlorine.js';
import type { CompanyId } from '../../platform/ids.js';
import type { PondEntity } from '../../ponds/index.js';
import type { SaidFor } from './reading-words.js';

/** What a verdict on a reading must know of the pond: its volume, its tap, and the company's dechlorinator. */
@Injectable()
export class PondSaidFor {
  constructor(
    private readonly companies: CompaniesService,
    @Inject(DECHLORINATORS) private readonly dechlorinators: Dechlorinators,
  ) {}

  async of(companyId: CompanyId, pond: PondEntity, units: UnitSystem): Promise<SaidFor> {
    const company = await this.companies.get(companyId);
    const { products, preset } = this.dechlorinators;
    const product = products.find((one) => one.id === company.dechlorinatorId) ?? preset;
    const isWell = pond.tapSource === 'well';
    return {
      units,
      volumeL: pond.volumeL,
      elevationM: pond.elevationM,
      tapChlorineMgPerL: isWell ? 0 : (pond.tapTotalChlorineMgPerL ?? DEFAULT_TAP_CHLORINE_MG_PER_L),
      productMgPerMgChlorine: product.productMgPerMgChlorine,
      productName: product.name,
    };
  }
}
