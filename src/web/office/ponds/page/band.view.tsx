import type { BandModel } from './band.view-model.js';

/** A small table under the forecast: how wide the band is and what makes it so. */
export function bandTable(band: BandModel): JSX.Element {
  return (
    <details class="why">
      <summary>
        <u>Where the band comes from</u>
      </summary>
      <section class="box scroll" tabindex="0" aria-label="Where the band of the water forecast comes from">
        <table>
          <thead>
            <tr>
              <th scope="col">Days</th>
              <th scope="col" class="r">
                Band
              </th>
              <th scope="col" class="r">
                Weather
              </th>
              <th scope="col" class="r">
                Model
              </th>
              <th scope="col" class="r">
                Thermometer
              </th>
            </tr>
          </thead>
          <tbody>
            {band.rows.map((row) => (
              <tr>
                <th scope="row" safe>
                  {row.span}
                </th>
                <td class="r" safe>
                  {row.width}
                </td>
                <td class="r" safe>
                  {row.weather}
                </td>
                <td class="r" safe>
                  {row.model}
                </td>
                <td class="r" safe>
                  {row.thermometer}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
        <p safe>{band.note}</p>
      </section>
    </details>
  );
}
