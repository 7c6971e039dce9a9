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
            <th scope="col">The next of them</th>
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
              <td>
                <span safe>{line.next}</span>
                {line.possible ? (
                  <small class="q" safe>
                    {`at the widest ${line.possible}`}
                  </small>
                ) : (
                  ''
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
