import { Injectable } from '@nestjs/common';
import type { Actor } from '../../../../accounts/index.js';
import { CareCalendarService, type CarePreview } from '../../../../care-calendar/index.js';
import { ClimateService, type ClimateSite } from '../../../../climate/index.js';
import { DomainError } from '../../../../core/errors.js';
import type { UnitSystem } from '../../../../core/units/show.js';
import type { PondInput } from '../../../../ponds/index.js';
import type { Option } from '../../../forms/fields.js';
import { firstYearModel } from './first-year.view-model.js';
import { formUnit, readNumber } from './form-units.js';
import type { TypedPond } from './form-values.js';
import { type PondFormModel, saidLines } from './pond-form.view-model.js';
import type { ReadPond } from './typed-pond.js';
import { whereLine } from './where-line.js';

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

export function isUuid(text: string | undefined): text is string {
  return text !== undefined && UUID.test(text);
}

/** What a form of a pond says so far: its climate, its sums, and the year it would give. Stores nothing. */
@Injectable()
export class FormConclusionsService {
  constructor(
    private readonly calendar: CareCalendarService,
    private readonly climate: ClimateService,
  ) {}

  async of(actor: Actor, typed: TypedPond, read: ReadPond): Promise<Pick<PondFormModel, 'said' | 'year' | 'stations'>> {
    const { units } = actor;
    const place = placeOf(typed, units);
    const preview = read.input ? await this.previewOf(actor, read.input, typed.id) : null;
    const climate = place ? unlessRefused(() => this.climate.siteFor(place)) : null;
    const year =
      preview && read.input
        ? firstYearModel(preview, read.input, units)
        : { missing: 'With name, place and shape the wheel and the first tasks appear here.' };
    return {
      said: saidLines(typed, units, climate ? whereLine(climate, preview, units) : null),
      year,
      stations: this.stationOptions(place, typed.stationId),
    };
  }

  /** A record that passes its schema may still hold what the science refuses; then there is no preview. */
  private async previewOf(actor: Actor, input: PondInput, id: string | undefined): Promise<CarePreview | null> {
    try {
      return await this.calendar.preview(actor.companyId, input, isUuid(id) ? { pondId: id } : {});
    } catch (error) {
      if (error instanceof DomainError) return null;
      throw error;
    }
  }

  private stationOptions(place: ClimateSite | null, chosenId: string | undefined): Option[] {
    const near = place
      ? unlessRefused(() => this.climate.stationsNear(place.latitude, place.longitude, place.elevationM))
      : null;
    const options = (near ?? []).map(({ station, distanceKm }) => ({
      value: station.id,
      label: `${station.name}, ${Math.round(distanceKm)} km (${station.period})`,
    }));
    const chosen = chosenId ? this.climate.station(chosenId) : undefined;
    const isListed = options.some(({ value }) => value === chosenId);
    return [
      { value: '', label: 'The nearest decide' },
      ...options,
      ...(chosen && !isListed ? [{ value: chosen.id, label: chosen.name }] : []),
    ];
  }
}

function placeOf(typed: TypedPond, units: UnitSystem): ClimateSite | null {
  const latitude = readNumber(typed.latitude);
  const longitude = readNumber(typed.longitude);
  if (latitude === null || longitude === null || Number.isNaN(latitude + longitude)) return null;
  const elevation = readNumber(typed.elevation) ?? 0;
  return {
    latitude,
    longitude,
    elevationM: formUnit('elevation', units).stored(Number.isNaN(elevation) ? 0 : elevation),
    stationId: typed.stationId || null,
    hardinessZone: typed.hardinessZone || null,
    koeppen: typed.koeppen || null,
  };
}

/** What cannot be used is told at its field when the form is saved; here it only silences a line. */
function unlessRefused<T>(conclude: () => T): T | null {
  try {
    return conclude();
  } catch (error) {
    if (error instanceof DomainError) return null;
    throw error;
  }
}
