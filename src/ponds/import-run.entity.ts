import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, instantColumn, integerColumn, jsonColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PersonId } from '../platform/ids.js';
import type { ImportReport } from './import-report.js';

/** One CSV import, with its progress and its report. */
@Entity('import_run')
export class ImportRunEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(textColumn('file_name'))
  fileName!: string;

  @Column(textColumn('state'))
  state!: 'checking' | 'refused' | 'importing' | 'imported' | 'failed';

  @Column(integerColumn('total_rows'))
  totalRows!: number;

  @Column(integerColumn('done_rows'))
  doneRows!: number;

  @Column(jsonColumn('report'))
  report!: ImportReport;

  @Column(idColumn('created_by', { nullable: true }))
  createdBy!: PersonId | null;

  @Column(instantColumn('created_at'))
  createdAt!: string;

  @Column(instantColumn('finished_at', { nullable: true }))
  finishedAt!: string | null;
}
