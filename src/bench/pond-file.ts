/** A file of invented ponds around real cities of unlike climates, with one person, pump and shoal each. */

const CITIES = [
  { town: 'Minneapolis', region: 'MN', latitude: 44.98, longitude: -93.27, elevationM: 260 },
  { town: 'Atlanta', region: 'GA', latitude: 33.75, longitude: -84.39, elevationM: 320 },
  { town: 'Miami', region: 'FL', latitude: 25.77, longitude: -80.19, elevationM: 2 },
  { town: 'Seattle', region: 'WA', latitude: 47.61, longitude: -122.33, elevationM: 50 },
  { town: 'Phoenix', region: 'AZ', latitude: 33.45, longitude: -112.07, elevationM: 330 },
] as const;
const HEAD =
  'pond_ref,pond_name,street,town,region,latitude,longitude,elevation_m,volume_us_gal,surface_area_m2,max_depth_m,' +
  'tap_source,trees_near,filled_on,contact_name,contact_email,contact_phone,equipment_kind,equipment_name,' +
  'equipment_flow_us_gal_per_h,stock_species,stock_count,stock_length_in';

/** CSV text of `count` ponds. The same count gives the same file. */
export function pondFile(count: number): string {
  const lines = Array.from({ length: count }, (_, i) => {
    const city = CITIES[i % CITIES.length] as (typeof CITIES)[number];
    const shift = ((i * 37) % 200) / 1000 - 0.1;
    return [
      `B-${i + 1}`,
      `"Pond ${i + 1}, back garden"`,
      `${i + 1} Mill Lane`,
      city.town,
      city.region,
      (city.latitude + shift).toFixed(4),
      (city.longitude - shift).toFixed(4),
      city.elevationM,
      1500 + (i % 40) * 30,
      9 + (i % 8),
      1.2,
      i % 2 ? 'chlorine' : 'chloramine',
      i % 3 ? 'yes' : 'no',
      '2021-05-01',
      `Owner ${i + 1}`,
      `owner${i + 1}@example.com`,
      `'+1 608 555 0100`,
      'pump',
      'Main pump',
      3000,
      'koi',
      4 + (i % 8),
      12,
    ].join(',');
  });
  return [HEAD, ...lines].join('\r\n');
}
