import { CM_PER_IN, M_PER_FT } from '../../core/units/length-units.js';
import { L_PER_IMPERIAL_GAL, L_PER_US_GAL } from '../../core/units/volume-units.js';

export type CsvSection = 'pond' | 'contact' | 'equipment' | 'stock' | 'agreement';
export type CellForm = 'text' | 'number' | 'yes-no' | 'word-list' | 'levels' | 'contours' | 'date-or-not-yet';

/** One column of the file of ponds. Several columns may fill one key, each in its own unit. */
export interface CsvColumn {
  readonly name: string;
  readonly section: CsvSection;
  /** Key of the typed record it fills. */
  readonly key: string;
  readonly form: CellForm;
  /** What one of its unit is in the stored unit; only the column with 1 is exported. */
  readonly perUnit: number;
  /** Shown to people, not read again. */
  readonly isExportOnly: boolean;
  readonly meaning: string;
}

type Extra = { form?: CellForm; perUnit?: number; isExportOnly?: boolean };

const column = (section: CsvSection, name: string, key: string, meaning: string, extra: Extra = {}): CsvColumn => ({
  name,
  section,
  key,
  form: extra.form ?? 'text',
  perUnit: extra.perUnit ?? 1,
  isExportOnly: extra.isExportOnly ?? false,
  meaning,
});
const number = { form: 'number' } as const;
const inUnit = (perUnit: number) => ({ form: 'number', perUnit }) as const;
const MM_PER_IN = 10 * CM_PER_IN;
const M2_PER_FT2 = M_PER_FT * M_PER_FT;

const POND = [
  column('pond', 'pond_ref', 'ref', 'your own reference of the pond, unique; the same one again updates the pond'),
  column('pond', 'pond_name', 'name', 'name of the pond'),
  column('pond', 'street', 'street', 'street and number'),
  column('pond', 'town', 'town', 'town'),
  column('pond', 'region', 'region', 'state, province or county'),
  column('pond', 'postal_code', 'postalCode', 'postal code'),
  column('pond', 'country', 'country', 'two letters, for example US'),
  column('pond', 'latitude', 'latitude', 'degrees, south negative', number),
  column('pond', 'longitude', 'longitude', 'degrees, west negative', number),
  column('pond', 'elevation_m', 'elevationM', 'above the sea, metres', number),
  column('pond', 'elevation_ft', 'elevationM', 'above the sea, feet', inUnit(M_PER_FT)),
  column('pond', 'time_zone', 'timeZone', 'IANA name; empty: from the coordinates'),
  column('pond', 'outline', 'outline', 'rectangle, circle, ellipse, stadium, kidney or measured-area'),
  column('pond', 'length_m', 'lengthM', 'metres', number),
  column('pond', 'length_ft', 'lengthM', 'feet', inUnit(M_PER_FT)),
  column('pond', 'width_m', 'widthM', 'metres', number),
  column('pond', 'width_ft', 'widthM', 'feet', inUnit(M_PER_FT)),
  column('pond', 'other_width_m', 'otherWidthM', 'of the other lobe of a kidney, metres', number),
  column('pond', 'other_width_ft', 'otherWidthM', 'of the other lobe of a kidney, feet', inUnit(M_PER_FT)),
  column('pond', 'diameter_m', 'diameterM', 'metres', number),
  column('pond', 'diameter_ft', 'diameterM', 'feet', inUnit(M_PER_FT)),
  column('pond', 'surface_area_m2', 'surfaceAreaM2', 'square metres', number),
  column('pond', 'surface_area_ft2', 'surfaceAreaM2', 'square feet', inUnit(M2_PER_FT2)),
  column('pond', 'depth_kind', 'depthKind', 'average, bowl, vertical, levels or contours'),
  column('pond', 'mean_depth_m', 'meanDepthM', 'metres', number),
  column('pond', 'mean_depth_ft', 'meanDepthM', 'feet', inUnit(M_PER_FT)),
  column('pond', 'max_depth_m', 'maxDepthM', 'deepest point, metres', number),
  column('pond', 'max_depth_ft', 'maxDepthM', 'deepest point, feet', inUnit(M_PER_FT)),
  column('pond', 'levels', 'levels', 'from the water line down, area in m2 x height in m: 12x0.3; 8.2x0.6', {
    form: 'levels',
  }),
  column('pond', 'contours', 'contours', 'from the highest down, depth in m : area in m2: 0.3:15; 0.6:9', {
    form: 'contours',
  }),
  column('pond', 'rock_share', 'rockShare', 'share of the space taken by rocks, 0 to 0.35', number),
  column('pond', 'volume_l', 'volumeL', 'measured volume, litres; empty: from the shape', number),
  column('pond', 'volume_us_gal', 'volumeL', 'measured volume, US gallons', inUnit(L_PER_US_GAL)),
  column('pond', 'volume_imp_gal', 'volumeL', 'measured volume, imperial gallons', inUnit(L_PER_IMPERIAL_GAL)),
  column('pond', 'volume_method', 'volumeMethod', 'metered or salt-test'),
  column('pond', 'volume_sigma_pct', 'sigmaPct', 'error of a salt test, per cent; empty: 8', number),
  column('pond', 'volume_in_use_l', 'volumeInUseL', 'litres that doses are computed for; written, not read', {
    form: 'number',
    isExportOnly: true,
  }),
  column('pond', 'direct_sun_hours', 'directSunHours', 'hours of direct sun at midsummer', number),
  column('pond', 'wind_shelter', 'windShelter', 'open, suburban or walled'),
  column('pond', 'trees_near', 'treesNear', 'yes or no', { form: 'yes-no' }),
  column('pond', 'waterfall', 'waterfall', 'yes or no', { form: 'yes-no' }),
  column('pond', 'plants', 'plants', 'words with semicolons: hardy-lily; marginal', { form: 'word-list' }),
  column('pond', 'tap_source', 'tapSource', 'chlorine, chloramine, well or unknown'),
  column('pond', 'tap_total_chlorine_mg_per_l', 'tapTotalChlorineMgPerL', 'mg/L', number),
  column('pond', 'filled_on', 'commissionedOn', 'YYYY-MM-DD; empty: taken over, not known'),
  column('pond', 'stocked_on', 'stockedOn', 'YYYY-MM-DD, or not-yet while it runs in', { form: 'date-or-not-yet' }),
  column('pond', 'care_since', 'careSince', 'YYYY-MM-DD; empty: today'),
  column('pond', 'station', 'stationId', 'climate station; empty: the nearest'),
  column('pond', 'hardiness_zone', 'hardinessZone', 'for example 5b; empty: computed'),
  column('pond', 'koeppen', 'koeppen', 'for example Dfa; empty: computed'),
  column('pond', 'access_notes', 'accessNotes', 'how to get in'),
  column('pond', 'gate_code', 'gateCode', 'gate code'),
  column('pond', 'hazards', 'hazards', 'hazards on site'),
];

const PARTS = [
  column(
    'contact',
    'contact_name',
    'name',
    'one person a line; further lines with the same pond_ref bring further ones',
  ),
  column('contact', 'contact_role', 'role', 'homeowner, caretaker, neighbour or builder'),
  column('contact', 'contact_email', 'email', 'empty: the office calls'),
  column('contact', 'contact_phone', 'phone', 'phone'),
  column('contact', 'contact_language', 'language', 'for example en'),
  column('contact', 'contact_units', 'units', 'us or metric; empty: as the company'),
  column('contact', 'contact_gets_mail', 'getsMail', 'yes or no', { form: 'yes-no' }),
  column('contact', 'contact_digest_weekday', 'digestWeekday', '1 Monday to 7 Sunday', number),
  column('contact', 'contact_digest_hour', 'digestHour', '0 to 23, local', number),
  column('contact', 'contact_since', 'startedOn', 'YYYY-MM-DD'),
  column('equipment', 'equipment_kind', 'kind', 'one machine a line: pump, uv-lamp, aerator, de-icer, …'),
  column('equipment', 'equipment_name', 'name', 'what you call it'),
  column('equipment', 'equipment_installed_on', 'installedOn', 'YYYY-MM-DD'),
  column('equipment', 'equipment_warranty_until', 'warrantyUntil', 'YYYY-MM-DD'),
  column('equipment', 'equipment_flow_l_per_h', 'flowLPerH', 'rated flow, litres an hour', number),
  column(
    'equipment',
    'equipment_flow_us_gal_per_h',
    'flowLPerH',
    'rated flow, US gallons an hour',
    inUnit(L_PER_US_GAL),
  ),
  column('equipment', 'equipment_max_head_m', 'maxHeadM', 'of a pump: head without flow, metres', number),
  column('equipment', 'equipment_max_head_ft', 'maxHeadM', 'of a pump: head without flow, feet', inUnit(M_PER_FT)),
  column('equipment', 'equipment_lift_m', 'liftM', 'of a pump: open water to outlet, metres', number),
  column('equipment', 'equipment_lift_ft', 'liftM', 'of a pump: open water to outlet, feet', inUnit(M_PER_FT)),
  column('equipment', 'equipment_pipe_length_m', 'lengthM', 'of a pump: length of its pipe, metres', number),
  column('equipment', 'equipment_pipe_length_ft', 'lengthM', 'of a pump: length of its pipe, feet', inUnit(M_PER_FT)),
  column('equipment', 'equipment_pipe_inside_mm', 'insideDiameterMm', 'inside diameter, millimetres', number),
  column('equipment', 'equipment_pipe_inside_in', 'insideDiameterMm', 'inside diameter, inches', inUnit(MM_PER_IN)),
  column('equipment', 'equipment_pipe_wall', 'wall', 'smooth-plastic or ribbed-hose'),
  column('equipment', 'equipment_pipe_elbows', 'elbows', 'right-angle bends', number),
  column('equipment', 'equipment_pipe_check_valves', 'checkValves', 'check valves', number),
  column('equipment', 'equipment_filter_head_m', 'filterHeadM', 'head taken by filter and lamp, metres', number),
  column('equipment', 'equipment_filter_head_ft', 'filterHeadM', 'the same, feet', inUnit(M_PER_FT)),
  column('equipment', 'equipment_power_w', 'powerW', 'watts', number),
  column('equipment', 'equipment_lamp_rated_hours', 'lampRatedHours', 'hours', number),
  column('equipment', 'equipment_media_l', 'mediaVolumeL', 'litres of media', number),
  column('equipment', 'equipment_media_us_gal', 'mediaVolumeL', 'US gallons of media', inUnit(L_PER_US_GAL)),
  column('equipment', 'equipment_media_m2_per_m3', 'mediaAreaM2PerM3', 'surface of biological media', number),
  column('equipment', 'equipment_service_life_days', 'serviceLifeDays', 'days', number),
  column('stock', 'stock_species', 'species', 'one kind a line: koi, goldfish, other-fish or slider-turtle'),
  column('stock', 'stock_count', 'count', 'how many', number),
  column('stock', 'stock_length_cm', 'lengthCm', 'centimetres', number),
  column('stock', 'stock_length_in', 'lengthCm', 'inches', inUnit(CM_PER_IN)),
  column('agreement', 'agreement_rule', 'ruleId', 'one care rule a line, for example winter-shutdown'),
  column('agreement', 'agreement_done_by', 'doneBy', 'company or homeowner'),
  column('agreement', 'agreement_from', 'from', 'YYYY-MM-DD'),
  column('agreement', 'agreement_until', 'until', 'YYYY-MM-DD'),
];

/** All columns, in the order of the export. Names have no other spellings; the order in a file is free. */
export const CSV_COLUMNS: readonly CsvColumn[] = [...POND, ...PARTS];
export const CSV_COLUMN_BY_NAME: ReadonlyMap<string, CsvColumn> = new Map(CSV_COLUMNS.map((one) => [one.name, one]));
/** Columns of the export: one for each key, in the stored unit. */
export const EXPORTED_COLUMNS: readonly CsvColumn[] = CSV_COLUMNS.filter((one) => one.perUnit === 1);

/** Columns that may fill a key of a section, for telling somebody which field is at fault. */
export function columnsOf(section: CsvSection, key: string): readonly CsvColumn[] {
  return CSV_COLUMNS.filter((one) => one.section === section && one.key === key);
}
