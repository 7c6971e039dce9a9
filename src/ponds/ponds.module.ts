import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/index.js';
import { ClimateModule } from '../climate/index.js';
import { LeakTestsService } from './leak-tests.service.js';
import { PondContactsService } from './pond-contacts.service.js';
import { PondEventsService } from './pond-events.service.js';
import { PondExportService } from './pond-export.service.js';
import { PondImportService } from './pond-import.service.js';
import { PondNews } from './pond-news.js';
import { PondRecordsService } from './pond-records.service.js';
import { PondWriterService } from './pond-writer.service.js';
import { PondsService } from './ponds.service.js';
import { ReadingsService } from './readings.service.js';

const SERVICES = [
  PondsService,
  PondRecordsService,
  PondContactsService,
  ReadingsService,
  PondEventsService,
  LeakTestsService,
  PondImportService,
  PondExportService,
  PondNews,
  PondWriterService,
];

@Module({
  imports: [AccountsModule, ClimateModule],
  providers: SERVICES,
  exports: SERVICES,
})
export class PondsModule {}
