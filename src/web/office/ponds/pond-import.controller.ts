import {
  Controller,
  Get,
  Header,
  Logger,
  Param,
  ParseUUIDPipe,
  Post,
  Req,
  Res,
  UploadedFile,
  UseInterceptors,
} from '@nestjs/common';
import { FileInterceptor } from '@nestjs/platform-express';
import type { Response } from 'express';
import type { Actor } from '../../../accounts/index.js';
import { civilDayIn, instantFrom } from '../../../platform/clock.js';
import { type ImportRunEntity, PondImportService } from '../../../ponds/index.js';
import { longDate } from '../../charts/show-date.js';
import { CurrentActor, type RequestWithActor, Roles, WithoutFormToken } from '../../shell/access.js';
import { requireOwnForm } from '../../shell/form-token.guard.js';
import { importRunPage, type LastRun, pondImportPage } from './pond-import.view.js';
import { importRunModel, sampleCsv } from './pond-import.view-model.js';

const LARGEST_FILE_BYTES = 10 * 1024 * 1024;
/** An import that is over this soon is answered with its report instead of a progress bar. */
const WAIT_MS = 700;
/** A file of a posted form, as its reader hands it over. */
interface SentFile {
  readonly originalname: string;
  readonly buffer: Buffer;
}
const STATE_WORDS: Readonly<Record<ImportRunEntity['state'], string>> = {
  checking: 'under way',
  importing: 'under way',
  refused: 'refused',
  imported: 'imported',
  failed: 'broke off',
};

@Controller('ponds/import')
@Roles('owner', 'office')
export class PondImportController {
  private readonly logger = new Logger('pond import');

  constructor(private readonly imports: PondImportService) {}

  @Get()
  @Header('Content-Type', 'text/html; charset=utf-8')
  async show(@CurrentActor() actor: Actor): Promise<string> {
    return pondImportPage(actor, { runs: await this.lastRuns(actor) });
  }

  @Get('sample.csv')
  @Header('Content-Type', 'text/csv; charset=utf-8')
  @Header('Content-Disposition', 'attachment; filename="ponds-sample.csv"')
  sample(): string {
    return sampleCsv();
  }

  @Post()
  @WithoutFormToken() // checked in the handler, once the files have been read
  @UseInterceptors(FileInterceptor('file', { limits: { fileSize: LARGEST_FILE_BYTES, files: 1 } }))
  async send(
    @CurrentActor() actor: Actor,
    @Req() request: RequestWithActor,
    @Res() response: Response,
    @UploadedFile() file: SentFile | undefined,
  ): Promise<void> {
    requireOwnForm(request);
    const text = textOf(file);
    if (!file || typeof text !== 'string') {
      const fault = file
        ? 'This file is not text in UTF-8. Save it as CSV in UTF-8 and send it again.'
        : 'Choose a file first.';
      response
        .status(422)
        .type('html')
        .send(pondImportPage(actor, { fault, runs: await this.lastRuns(actor) }));
      return;
    }
    const { runId, finished } = await this.imports.start(
      actor.companyId,
      { fileName: fileNameOf(file), text },
      { importedBy: actor.personId },
    );
    finished.catch((error: unknown) => this.logger.error({ runId, error }));
    await Promise.race([finished.catch(() => undefined), new Promise((resolve) => setTimeout(resolve, WAIT_MS))]);
    response.redirect(303, `/ponds/import/${runId}`);
  }

  @Get(':runId')
  @Header('Content-Type', 'text/html; charset=utf-8')
  @Header('Cache-Control', 'no-store')
  async run(@CurrentActor() actor: Actor, @Param('runId', ParseUUIDPipe) runId: string): Promise<string> {
    return importRunPage(actor, importRunModel(await this.imports.run(actor.companyId, runId)));
  }

  private async lastRuns(actor: Actor): Promise<LastRun[]> {
    const runs = await this.imports.runs(actor.companyId, 5);
    return runs.map((run) => ({
      href: `/ponds/import/${run.id}`,
      fileName: run.fileName,
      when: longDate(civilDayIn(instantFrom(run.createdAt), actor.timeZone)),
      state: STATE_WORDS[run.state],
    }));
  }
}

/** Forms send file names as UTF-8, which their reader takes for Latin-1. */
function fileNameOf(file: SentFile): string {
  return Buffer.from(file.originalname, 'latin1').toString('utf8') || 'ponds.csv';
}

/** The file's text, or null where it is not UTF-8: guessing an encoding would spoil names silently. */
function textOf(file: SentFile | undefined): string | null {
  if (!file) return null;
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(file.buffer);
  } catch {
    return null;
  }
}
