import { setImmediate as nextTurn } from 'node:timers/promises';
import { Injectable } from '@nestjs/common';
import { In, IsNull } from 'typeorm';
import { PeopleService, PersonEntity } from '../accounts/index.js';
import { ClimateService } from '../climate/index.js';
import { Database } from '../database/index.js';
import { Clock, instantFrom } from '../platform/clock.js';
import { type CompanyId, newId, type PersonId, type PondId } from '../platform/ids.js';
import { checkDraft, type ImportPlan } from './csv/check-drafts.js';
import { type PondDraft, PondDrafts } from './csv/gather-ponds.js';
import { ImportFaults } from './csv/import-faults.js';
import { readTable } from './csv/read-table.js';
import type { ImportReport } from './import-report.js';
import { ImportRunEntity } from './import-run.entity.js';
import { PondEntity } from './pond.entity.js';
import type { PondInput } from './pond-input.schema.js';
import { PondNews } from './pond-news.js';
import type { PondRecord } from './pond-record.js';
import { PondRecordsService } from './pond-records.service.js';
import { PondWriterService } from './pond-writer.service.js';
import { PondChangedMeanwhileError, PondStateError, PondThingNotFoundError } from './ponds.errors.js';

export interface ImportProgress {
  /** `checking` and `saving` count ponds of the file; `planning` the calendars made afterwards. */
  readonly phase: 'checking' | 'saving' | 'planning';
  readonly done: number;
  readonly total: number;
}

export interface ImportOptions {
  readonly importedBy?: PersonId | null;
  readonly onProgress?: (progress: ImportProgress) => void;
}

export interface ImportFile {
  readonly fileName: string;
  readonly text: string;
}

/** Ponds checked between two looks at other work, and written in one go. */
const CHUNK = 250;
const LONGEST_FILE = 30_000_000;
/** An import that says nothing for so long died with its process. */
const DEAD_AFTER_MINUTES = 30;
const NOTHING_DONE: ImportReport = { faults: [], furtherFaults: 0, pondsAdded: 0, pondsChanged: 0, contactsAdded: 0 };

/**
 * Reads a CSV file of ponds and contacts: everything is checked first, then everything is written in one unit of work,
 * or nothing. The progress of checking is written to the run's row, a small unit of work for each chunk; while the one
 * big unit is open nobody else can write, so the progress of saving is kept in memory and laid over the row by `run`.
 */
@Injectable()
export class PondImportService {
  private readonly saving = new Map<string, number>();

  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly climate: ClimateService,
    private readonly people: PeopleService,
    private readonly records: PondRecordsService,
    private readonly writer: PondWriterService,
    private readonly news: PondNews,
  ) {}

  /** Imports a file and answers its run, imported or refused. Calendars of the ponds are made before it answers. */
  async importCsv(companyId: CompanyId, file: ImportFile, options: ImportOptions = {}): Promise<ImportRunEntity> {
    return (await this.start(companyId, file, options)).finished;
  }

  /** Begins an import and answers its id at once; `finished` settles when it is over. */
  async start(
    companyId: CompanyId,
    file: ImportFile,
    options: ImportOptions = {},
  ): Promise<{ readonly runId: string; readonly finished: Promise<ImportRunEntity> }> {
    if (file.text.length > LONGEST_FILE) {
      throw new PondStateError(
        `The file has ${file.text.length} characters; at most ${LONGEST_FILE} are read. Split it.`,
      );
    }
    const runId = newId();
    await this.database.unitOfWork('begin import', () =>
      this.database.company(companyId).insert(ImportRunEntity, {
        id: runId,
        fileName: file.fileName.slice(0, 200),
        state: 'checking',
        totalRows: 0,
        doneRows: 0,
        report: NOTHING_DONE,
        createdBy: options.importedBy ?? null,
        createdAt: this.clock.instant(),
        finishedAt: null,
      }),
    );
    const finished = this.carryOut(companyId, runId, file.text, options);
    return { runId, finished };
  }

  /** A run with its progress, for the page that shows a bar. */
  async run(companyId: CompanyId, runId: string): Promise<ImportRunEntity> {
    const run = await this.database.company(companyId).findOne(ImportRunEntity, { id: runId });
    if (!run) throw new PondThingNotFoundError('import', runId);
    return this.asItStands(run);
  }

  /** The latest runs, newest first. */
  async runs(companyId: CompanyId, atMost = 20): Promise<ImportRunEntity[]> {
    const rows = await this.database
      .company(companyId)
      .find(ImportRunEntity, { order: { createdAt: 'DESC', id: 'DESC' }, take: atMost });
    return rows.map((run) => this.asItStands(run));
  }

  private asItStands(run: ImportRunEntity): ImportRunEntity {
    const saved = this.saving.get(run.id);
    if (saved !== undefined) return { ...run, state: 'importing', doneRows: saved };
    const isOpen = run.state === 'checking' || run.state === 'importing';
    const ageMinutes = this.clock.now().diff(instantFrom(run.createdAt), 'minutes').minutes;
    return isOpen && ageMinutes > DEAD_AFTER_MINUTES ? { ...run, state: 'failed' } : run;
  }

  private async carryOut(
    companyId: CompanyId,
    runId: string,
    text: string,
    options: ImportOptions,
  ): Promise<ImportRunEntity> {
    const pondIds = await this.checkAndSave(companyId, runId, text, options).catch(async (error: unknown) => {
      await this.note(companyId, runId, { state: 'failed' }, true);
      throw error;
    });
    // The ponds are in, whatever becomes of their calendars.
    await this.tellPlanners(companyId, pondIds, options);
    return this.run(companyId, runId);
  }

  /** Answers the ponds that were added or changed; none when the file was refused. */
  private async checkAndSave(
    companyId: CompanyId,
    runId: string,
    text: string,
    options: ImportOptions,
  ): Promise<PondId[]> {
    const faults = new ImportFaults();
    const drafts = await this.draftsOf(text, faults);
    const plan = await this.check(companyId, runId, drafts, faults, options);
    if (!faults.isEmpty) {
      await this.note(companyId, runId, { state: 'refused', report: { ...NOTHING_DONE, ...faults.report() } }, true);
      return [];
    }
    await this.note(companyId, runId, { state: 'importing', doneRows: 0 });
    try {
      return await this.save(companyId, runId, plan, drafts.length, options);
    } finally {
      this.saving.delete(runId);
    }
  }

  private async draftsOf(text: string, faults: ImportFaults): Promise<PondDraft[]> {
    const drafts = new PondDrafts(faults);
    for await (const row of readTable(text, faults)) drafts.add(row);
    return drafts.all();
  }

  private async check(
    companyId: CompanyId,
    runId: string,
    drafts: readonly PondDraft[],
    faults: ImportFaults,
    { onProgress }: ImportOptions,
  ): Promise<ImportPlan> {
    const plan: ImportPlan = { added: [], changed: [] };
    const total = drafts.length;
    await this.note(companyId, runId, { totalRows: total });
    for (let from = 0; from < total; from += CHUNK) {
      const chunk = drafts.slice(from, from + CHUNK);
      const standing = await this.standingByRef(
        companyId,
        chunk.map(({ ref }) => ref),
      );
      const hasStation = (id: string) => this.climate.station(id) !== undefined;
      for (const draft of chunk) checkDraft(draft, standing.get(draft.ref) ?? null, { hasStation, plan, faults });
      const done = Math.min(from + CHUNK, total);
      await this.note(companyId, runId, { doneRows: done });
      onProgress?.({ phase: 'checking', done, total });
      await nextTurn();
    }
    return plan;
  }

  /** Ponds by their reference; one that has none is known by its id, as the export names it. */
  private async standingByRef(companyId: CompanyId, refs: readonly string[]): Promise<Map<string, PondRecord>> {
    const keys = In([...refs]);
    const ponds = await this.database
      .company(companyId)
      .find(PondEntity, { where: [{ ref: keys }, { ref: IsNull(), id: keys }] });
    const records = await this.records.of(companyId, ponds);
    return new Map(records.map((record) => [record.pond.ref ?? record.pond.id, record]));
  }

  private async save(
    companyId: CompanyId,
    runId: string,
    plan: ImportPlan,
    totalRows: number,
    { onProgress }: ImportOptions,
  ): Promise<PondId[]> {
    const total = plan.added.length + plan.changed.length;
    const step = (done: number) => {
      this.saving.set(runId, done);
      onProgress?.({ phase: 'saving', done, total });
    };
    return this.database.unitOfWork('import ponds', async () => {
      const added = plan.added.map(({ input }) => ({ id: newId(), input }));
      const changed = plan.changed.map(({ pondId }) => pondId);
      let contactsAdded = 0;
      for (let from = 0; from < added.length; from += CHUNK) {
        const chunk = added.slice(from, from + CHUNK);
        const personIds = await this.personIdsOf(chunk.map(({ input }) => input));
        contactsAdded += (await this.writer.insert(companyId, chunk, personIds)).contacts;
        step(Math.min(from + CHUNK, added.length));
      }
      for (const [i, { pondId, version, input }] of plan.changed.entries()) {
        contactsAdded += await this.saveChange(companyId, pondId, version, input);
        if (i % CHUNK === 0) step(added.length + i);
      }
      const report = { ...NOTHING_DONE, pondsAdded: added.length, pondsChanged: changed.length, contactsAdded };
      // The end of the run is part of the import: whoever reads `imported` finds the ponds.
      await this.note(companyId, runId, { state: 'imported', doneRows: totalRows, report }, true);
      return [...added.map(({ id }) => id), ...changed];
    });
  }

  private async saveChange(companyId: CompanyId, pondId: PondId, version: number, input: PondInput): Promise<number> {
    const pond = await this.database.company(companyId).findOne(PondEntity, { id: pondId });
    if (!pond || pond.version !== version) {
      throw new PondChangedMeanwhileError(pondId, version, pond?.version ?? 0, input);
    }
    await this.writer.saveEdit(companyId, pond, input);
    return this.writer.saveContacts(companyId, pondId, input.contacts);
  }

  private async personIdsOf(inputs: readonly PondInput[]): Promise<Map<string, PersonId>> {
    const contacts = inputs.flatMap((input) => input.contacts).filter((contact) => contact.email !== null);
    const emails = [...new Set(contacts.map(({ email }) => email as string))];
    if (emails.length === 0) return new Map();
    const known = await this.database.shared().find(PersonEntity, { email: In(emails) });
    const personIds = new Map(known.map(({ id, email }) => [email, id]));
    for (const { email, name, phone, language } of contacts) {
      if (email === null || personIds.has(email)) continue;
      personIds.set(email, (await this.people.ensurePerson({ email, name, phone, language })).id);
    }
    return personIds;
  }

  private async tellPlanners(companyId: CompanyId, pondIds: readonly PondId[], options: ImportOptions): Promise<void> {
    const total = pondIds.length;
    let done = 0;
    const step = () => options.onProgress?.({ phase: 'planning', done: ++done, total });
    if (total > 0) await this.news.tell('ponds-imported', { companyId, pondIds, step });
  }

  private async note(
    companyId: CompanyId,
    runId: string,
    change: Partial<Pick<ImportRunEntity, 'state' | 'totalRows' | 'doneRows' | 'report'>>,
    isOver = false,
  ): Promise<void> {
    const finishedAt = isOver ? { finishedAt: this.clock.instant() } : {};
    await this.database.unitOfWork('note import progress', () =>
      this.database.company(companyId).update(ImportRunEntity, { id: runId }, { ...change, ...finishedAt } as never),
    );
  }
}
