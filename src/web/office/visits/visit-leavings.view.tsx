import type { Actor } from '../../../accounts/index.js';
import { formToken } from '../../shell/layout.js';
import type { CorrectionForm } from './visit-correction.js';
import type { LeavingsModel } from './visit-leavings.view-model.js';
import type { VisitRecordModel } from './visit-record.view-model.js';
import { stepForm } from './visit-steps.view.js';

/** Photos, parts and follow-ups of a visit. */
export function leavings(actor: Actor, { id, leavings: left }: VisitRecordModel): JSX.Element {
  return (
    <>
      {left.photos.length === 0 ? '' : photos(actor, id, left.photos)}
      {left.parts.length === 0 ? '' : list('Parts and products', left.parts)}
      {left.followUps.length === 0
        ? ''
        : list(
            'To follow up',
            left.followUps.map(({ words, isSettled }) => (isSettled ? `${words} (settled)` : words)),
          )}
    </>
  );
}

export function trail({ leavings: { trail: lines } }: VisitRecordModel): JSX.Element {
  if (lines.length === 0) return '';
  return (
    <details class="why gap">
      <summary>
        <u>Who changed what</u>
      </summary>
      <ul class="fine">
        {lines.map(({ when, who, what }) => (
          <li safe>{`${when}: ${who} ${what}`}</li>
        ))}
      </ul>
    </details>
  );
}

/** The office's correction of a closed visit's record, with a reason. */
export function correction(actor: Actor, model: VisitRecordModel): JSX.Element {
  const { correction: form } = model;
  if (form === null) return '';
  const isOpen = model.faults?.form === 'correction';
  const faults = isOpen ? Object.values(model.faults?.fields ?? {}) : [];
  return (
    <details class="why gap" open={isOpen}>
      <summary>
        <u>Correct the record</u>
      </summary>
      {stepForm(
        actor,
        model,
        'correction',
        <>
          <p class="fine">Every version is kept. A report that has left is followed by a corrected one.</p>
          {faults.map((fault) => (
            <p class="note act" role="alert" safe>
              {fault}
            </p>
          ))}
          {form.tasks.map(taskFields)}
          {form.readings.map(readingField)}
          {homeownerField(form)}
          <div class="f">
            <label for="correct-note">Note</label>
            <span class="inp">
              <textarea id="correct-note" name="note" rows="4" maxlength="10000" safe>
                {form.note}
              </textarea>
            </span>
          </div>
          <div class="f">
            <label for="correct-because">Why</label>
            <span class="inp">
              <input
                id="correct-because"
                name="because"
                value={form.because}
                required
                maxlength="500"
                autocomplete="off"
              />
            </span>
          </div>
          <p>
            <button type="submit" class="btn">
              Correct it
            </button>
          </p>
        </>,
      )}
    </details>
  );
}

function taskFields(task: CorrectionForm['tasks'][number]): JSX.Element {
  const outcomes = [
    ['done', 'done'],
    ['partly', 'partly done'],
    ['not-done', 'not done'],
  ] as const;
  return (
    <fieldset class="correct-task">
      <legend safe>{task.title}</legend>
      <div class="f">
        <label for={`outcome-${task.id}`}>Outcome</label>
        <span class="inp">
          <select id={`outcome-${task.id}`} name={`outcome:${task.id}`}>
            {outcomes.map(([value, words]) => (
              <option value={value} selected={value === task.outcome}>
                {words}
              </option>
            ))}
          </select>
        </span>
      </div>
      <div class="f">
        <label for={`share-${task.id}`}>If partly, how much</label>
        <span class="inp">
          <input id={`share-${task.id}`} name={`share:${task.id}`} inputmode="numeric" value={task.sharePct} />
          <span class="u">%</span>
        </span>
      </div>
      <div class="f">
        <label for={`remark-${task.id}`}>Remark</label>
        <span class="inp">
          <input id={`remark-${task.id}`} name={`remark:${task.id}`} value={task.remark} maxlength="2000" />
        </span>
      </div>
    </fieldset>
  );
}

function readingField(reading: CorrectionForm['readings'][number]): JSX.Element {
  return (
    <div class="f">
      <label for={`reading-${reading.id}`} safe>
        {reading.label}
      </label>
      <span class="inp">
        <input
          id={`reading-${reading.id}`}
          name={`reading:${reading.id}`}
          inputmode="decimal"
          value={reading.value}
          autocomplete="off"
        />
        {reading.unit === '' ? (
          ''
        ) : (
          <span class="u" safe>
            {reading.unit}
          </span>
        )}
      </span>
    </div>
  );
}

function homeownerField({ homeowner }: CorrectionForm): JSX.Element {
  const answers = [
    ['', 'not said'],
    ['yes', 'was there'],
    ['no', 'was not there'],
  ] as const;
  return (
    <div class="f">
      <label for="correct-homeowner">The homeowner</label>
      <span class="inp">
        <select id="correct-homeowner" name="homeowner">
          {answers.map(([value, words]) => (
            <option value={value} selected={value === homeowner}>
              {words}
            </option>
          ))}
        </select>
      </span>
    </div>
  );
}

function photos(actor: Actor, visitId: string, list: LeavingsModel['photos']): JSX.Element {
  return (
    <section>
      <h2>Photos</h2>
      <ul class="photo-strip">
        {list.map(({ id, href, alt }) => (
          <li>
            <a href={href}>
              <img src={`${href}?size=thumb`} alt={alt} loading="lazy" />
            </a>
            <details class="confirm">
              <summary aria-label={`Remove photo ${alt}`}>Remove</summary>
              <form method="post" action={`/visits/${visitId}/photos/${id}/removal`} class="stack">
                {formToken(actor)}
                <div class="f">
                  <label for={`why-${id}`}>Why</label>
                  <span class="inp">
                    <input id={`why-${id}`} name="why" required maxlength="500" autocomplete="off" />
                  </span>
                </div>
                <button type="submit" class="btn">
                  Remove it for good
                </button>
              </form>
            </details>
          </li>
        ))}
      </ul>
    </section>
  );
}

function list(title: string, lines: readonly string[]): JSX.Element {
  return (
    <section>
      <h2 safe>{title}</h2>
      <ul>
        {lines.map((line) => (
          <li safe>{line}</li>
        ))}
      </ul>
    </section>
  );
}
