export { AgreementTermEntity } from './agreement-term.entity.js';
export { byPond } from './by-pond.js';
export { changedRecord } from './changed-record.js';
export {
  CONTACT_ROLES,
  type ContactInput,
  ContactInputSchema,
  type ContactInputTyped,
} from './contact-input.schema.js';
export { numberField, textField } from './csv/csv-cell.js';
export { CSV_COLUMNS, type CsvColumn } from './csv/csv-columns.js';
export { EquipmentEntity } from './equipment.entity.js';
export type { ImportFault, ImportReport } from './import-report.js';
export { ImportRunEntity } from './import-run.entity.js';
export { type JudgedLeakTest, type LeakTest, LeakTestSchema } from './leak-test.js';
export { LeakTestsService } from './leak-tests.service.js';
export { PondEntity } from './pond.entity.js';
export { PondContactEntity } from './pond-contact.entity.js';
export { PondContactsService } from './pond-contacts.service.js';
export { PondEventEntity } from './pond-event.entity.js';
export { type NewPondEvent, PondEventsService } from './pond-events.service.js';
export { PondExportService } from './pond-export.service.js';
export { pondFacts } from './pond-facts.js';
export { pondHeat } from './pond-heat.js';
export { type ImportFile, type ImportOptions, type ImportProgress, PondImportService } from './pond-import.service.js';
export {
  type AgreementInput,
  EQUIPMENT_KINDS,
  type EquipmentInput,
  PIPE_WALLS,
  PLANT_KINDS,
  type PondInput,
  PondInputSchema,
  type PondInputTyped,
  readPondInput,
  SPECIES,
  type StockInput,
  TAP_SOURCES,
  WIND_SHELTERS,
} from './pond-input.schema.js';
export { LARGEST_PAGE, POND_SORTS, type PondListQuery, type PondListRow, type PondSort } from './pond-list.js';
export { PondNews, type PondNewsItems, type PondNewsKind, type PondNewsListener } from './pond-news.js';
export type { PondContact, PondRecord } from './pond-record.js';
export { PondRecordsService } from './pond-records.service.js';
export { pondInputOf, timeZoneOf, unsavedRecord } from './pond-rows.js';
export { PondWriterService } from './pond-writer.service.js';
export {
  type InputFault,
  PondChangedMeanwhileError,
  PondInputRefusedError,
  PondStateError,
  PondThingNotFoundError,
} from './ponds.errors.js';
export { PondsModule } from './ponds.module.js';
export { type PondSite, PondsService } from './ponds.service.js';
export { ReadingEntity } from './reading.entity.js';
export {
  ImplausibleReadingError,
  implausibility,
  PLAUSIBLE_READING,
  requirePlausible,
} from './reading-plausibility.js';
export { type NewReading, type ReadingsQuery, ReadingsService } from './readings.service.js';
export { StockGroupEntity } from './stock-group.entity.js';
export {
  PondShapeSchema,
  type StoredVolume,
  storedVolumeOf,
  type WaterInput,
  WaterInputSchema,
} from './water-input.schema.js';
