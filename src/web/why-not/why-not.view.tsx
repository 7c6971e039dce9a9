import type { WhyNotLine } from './why-not.view-model.js';

/** A list of reasons; with the script `why-not` a field above it narrows the list while one types. */
export function whyNotList(
  lines: readonly WhyNotLine[],
  given: { readonly id: string; readonly lead: string },
): JSX.Element {
  if (lines.length === 0) return '';
  const { id, lead } = given;
  return (
    <details class="why gap" id={id}>
      <summary>
        <u>Why is there no …?</u>
      </summary>
      <div class="box">
        <p safe>{lead}</p>
        <div class="f find" hidden data-find={`${id}-list`}>
          <label for={`${id}-find`}>Find</label>
          <span class="inp">
            <input id={`${id}-find`} type="search" autocomplete="off" aria-controls={`${id}-list`} />
          </span>
          <span class="hint" role="status" safe>
            {lines.length === 1 ? '1 line' : `${lines.length} lines`}
          </span>
        </div>
        <dl class="reasons" id={`${id}-list`}>
          {lines.map((line) => (
            <div>
              <dt safe>{line.title}</dt>
              <dd safe>{line.why}</dd>
            </div>
          ))}
        </dl>
      </div>
    </details>
  );
}
