import { Injectable } from '@nestjs/common';
import { Database } from '../database/index.js';
import type { CompanyId } from '../platform/ids.js';
import { EXPORT_HEAD, exportRows } from './csv/export-rows.js';
import { PondEntity } from './pond.entity.js';
import { PondRecordsService } from './pond-records.service.js';

const CHUNK = 250;
const LINE_END = '\r\n';
const BYTE_ORDER_MARK = '\ufeff';

@Injectable()
export class PondExportService {
  constructor(
    private readonly database: Database,
    private readonly records: PondRecordsService,
  ) {}

  /**
   * The active ponds of a company with their people, machines, stock and agreements, as text of a CSV file in pieces.
   * UTF-8 with a byte order mark, so that spreadsheets read names right; cells that would be formulas are guarded.
   */
  async *exportCsv(companyId: CompanyId): AsyncIterable<string> {
    yield BYTE_ORDER_MARK + EXPORT_HEAD + LINE_END;
    let after = '';
    for (;;) {
      const ponds = await this.database
        .company(companyId)
        .select(PondEntity, 'pond')
        .and("pond.state = 'active'")
        .and('pond.id > :after', { after })
        .orderBy('id')
        .page(0, CHUNK)
        .rows();
      if (ponds.length === 0) return;
      const records = await this.records.of(companyId, ponds);
      yield records
        .flatMap(exportRows)
        .map((row) => row + LINE_END)
        .join('');
      after = (ponds.at(-1) as PondEntity).id;
    }
  }
}
