import { Column, Entity, PrimaryColumn } from 'typeorm';
import type { PlantKind, TapSource, WinterClass } from '../core/care/pond-facts.js';
import type { PondShape } from '../core/hydraulics/pond-volume.js';
import {
  dateColumn,
  flagColumn,
  idColumn,
  instantColumn,
  integerColumn,
  jsonColumn,
  keyColumn,
  numberColumn,
  textColumn,
} from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId } from '../platform/ids.js';

/** The built pond and what is known of it. */
@Entity('pond')
export class PondEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(textColumn('name'))
  name!: string;

  /** The company's own reference, unique in it: the key of a CSV import. */
  @Column(textColumn('pond_ref', { nullable: true }))
  ref?: string | null;

  @Column(textColumn('state'))
  state!: 'active' | 'archived';

  @Column(textColumn('street'))
  street!: string;

  @Column(textColumn('town'))
  town!: string;

  @Column(textColumn('region'))
  region!: string;

  @Column(textColumn('postal_code'))
  postalCode!: string;

  @Column(textColumn('country'))
  country!: string;

  @Column(numberColumn('latitude'))
  latitude!: number;

  /** East positive. */
  @Column(numberColumn('longitude'))
  longitude!: number;

  @Column(numberColumn('elevation_m'))
  elevationM!: number;

  /** IANA name. */
  @Column(textColumn('time_zone'))
  timeZone!: string;

  /** Null where only a metered volume and an area are known. */
  @Column(jsonColumn('shape', { nullable: true }))
  shape!: PondShape | null;

  @Column(numberColumn('volume_l'))
  volumeL!: number;

  @Column(textColumn('volume_method'))
  volumeMethod!: string;

  @Column(numberColumn('volume_sigma_pct'))
  volumeSigmaPct!: number;

  @Column(numberColumn('surface_area_m2'))
  surfaceAreaM2!: number;

  @Column(numberColumn('mean_depth_m'))
  meanDepthM!: number;

  @Column(numberColumn('max_depth_m'))
  maxDepthM!: number;

  /** Hours of direct sun at midsummer. */
  @Column(numberColumn('direct_sun_hours'))
  directSunHours!: number;

  @Column(textColumn('wind_shelter'))
  windShelter!: 'open' | 'suburban' | 'walled';

  @Column(flagColumn('trees_near'))
  treesNear!: boolean;

  @Column(flagColumn('waterfall'))
  waterfall!: boolean;

  @Column(jsonColumn('plants'))
  plants!: PlantKind[];

  @Column(textColumn('tap_source'))
  tapSource!: TapSource;

  @Column(numberColumn('tap_total_chlorine_mg_per_l', { nullable: true }))
  tapTotalChlorineMgPerL!: number | null;

  @Column(dateColumn('commissioned_on', { nullable: true }))
  commissionedOn!: string | null;

  /** Livestock released into it; null while running in. */
  @Column(dateColumn('stocked_on', { nullable: true }))
  stockedOn!: string | null;

  /** The day its care began with this company. */
  @Column(dateColumn('care_since'))
  careSince!: string;

  /** Chosen by a person; null lets the nearest decide. */
  @Column(textColumn('station_id', { nullable: true }))
  stationId!: string | null;

  /** Set by a person. */
  @Column(textColumn('hardiness_zone', { nullable: true }))
  hardinessZone!: string | null;

  /** Set by a person. */
  @Column(textColumn('koeppen', { nullable: true }))
  koeppen!: string | null;

  /** Found by simulation when the pond was last planned; null before. */
  @Column(textColumn('winter_class', { nullable: true }))
  winterClass?: WinterClass | null;

  /** What the winter class was computed from: another key, and it is computed anew. */
  @Column(textColumn('winter_key', { nullable: true }))
  winterKey?: string | null;

  @Column(textColumn('access_notes'))
  accessNotes!: string;

  @Column(textColumn('gate_code'))
  gateCode!: string;

  @Column(textColumn('hazards'))
  hazards!: string;

  @Column(instantColumn('created_at'))
  createdAt!: string;

  @Column(instantColumn('updated_at'))
  updatedAt!: string;

  @Column(instantColumn('archived_at', { nullable: true }))
  archivedAt!: string | null;

  /** Goes up by one with each change; an edit of an older version is refused. */
  @Column(integerColumn('version'))
  version!: number;
}
