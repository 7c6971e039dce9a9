import type { LaterModel } from './later.view-model.js';

/** Later times as they are expected today; they carry no number, because they are no tasks yet. */
export function laterTimes({ count, lines }: LaterModel): JSX.Element {
  if (lines.length === 0) return '';
  return (
    <details class="later" id="later">
      <summary safe>{`${count} later times, as expected today`}</summary>
      <p class="fine">
        Not tasks yet: each follows from the day on which the one before it is done. Likely is where the next one comes
        when those before it are done here and there in their windows; at the widest, when all are done at the same end.
      </p>
      <table class="list told later-times">
        <thead>
          <tr>
            <th scope="col">Care</th>
            <th scope="col">How often</th>
            <th scope="col">Next about</th>
            <th scope="col">Likely</th>
            <th scope="col">At the widest</th>
            <th scope="col">Last about</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <tr>
              <th scope="row">
                <span safe>{line.title}</span>
                <small class="q">{line.who}</small>
              </th>
              <td safe>{line.times}</td>
              <td data-label="next about" safe>
                {line.about}
              </td>
              <td data-label="likely" safe>
                {line.likely}
              </td>
              <td data-label="at the widest" safe>
                {line.possible}
              </td>
              <td data-label={line.last ? 'last about' : undefined} safe>
                {line.last}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
