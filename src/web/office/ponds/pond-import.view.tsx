import type { Actor } from '../../../accounts/index.js';
import { fieldId } from '../../forms/fields.js';
import { formToken, page } from '../../shell/layout.js';
import { type ImportRunModel, importColumns } from './pond-import.view-model.js';

export interface LastRun {
  readonly href: string;
  readonly fileName: string;
  readonly when: string;
  readonly state: string;
}

export function pondImportPage(actor: Actor, model: { fault?: string; runs: readonly LastRun[] }): string {
  return page({
    title: 'Import ponds',
    actor,
    current: '/ponds',
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href="/ponds">Ponds</a>
            </p>
            <h1>Import ponds</h1>
            <p class="lead">
              One CSV file with ponds, people, machines and fish. Every cell is checked first; with one fault nothing is
              imported, and you are told the line.
            </p>
          </div>
          <div class="acts">
            <a class="btn" href="/ponds/import/sample.csv" download="ponds-sample.csv">
              Download a sample
            </a>
          </div>
        </div>
        <form class="upload" method="post" action="/ponds/import" enctype="multipart/form-data">
          {formToken(actor)}
          <div class="f">
            <label for={fieldId('file')}>CSV file, at most 10 MB</label>
            <span class={model.fault ? 'inp wrong' : 'inp'}>
              <input
                id={fieldId('file')}
                type="file"
                name="file"
                accept=".csv,text/csv"
                required
                aria-describedby={model.fault ? 'file-fault' : undefined}
              />
            </span>
            {model.fault ? (
              <span class="err" id="file-fault" safe>
                {model.fault}
              </span>
            ) : (
              ''
            )}
          </div>
          <button type="submit" class="btn first">
            Check and import
          </button>
        </form>
        {model.runs.length > 0 ? lastRuns(model.runs) : ''}
        <section aria-labelledby="columns-title">
          <h2 id="columns-title">Columns</h2>
          <p class="gap">
            The first line names the columns, in any order; only the ones you need. A pond with several people, machines
            or kinds of fish takes several lines with the same <code>pond_ref</code>. Give each measure in one of its
            units. A reference that is already here changes that pond.
          </p>
          {importColumns().map(({ title, columns }) => (
            <section class="scroll gap" tabindex="0" aria-label={title}>
              <table class="list told">
                <caption safe>{title}</caption>
                <thead>
                  <tr>
                    <th scope="col">Column</th>
                    <th scope="col">Meaning</th>
                  </tr>
                </thead>
                <tbody>
                  {columns.map((column) => (
                    <tr>
                      <th scope="row">
                        <code safe>{column.name}</code>
                      </th>
                      <td class="wide" safe>
                        {column.meaning}
                      </td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </section>
          ))}
        </section>
      </>
    ),
  });
}

function lastRuns(runs: readonly LastRun[]): JSX.Element {
  return (
    <section aria-labelledby="runs-title">
      <h2 id="runs-title">Last imports</h2>
      <dl class="facts gap">
        {runs.map((run) => (
          <>
            <dt>
              <a href={run.href} safe>
                {run.fileName}
              </a>
              <small safe>{run.when}</small>
            </dt>
            <dd safe>{run.state}</dd>
          </>
        ))}
      </dl>
    </section>
  );
}

export function importRunPage(actor: Actor, model: ImportRunModel): string {
  const isOver = model.progress === null;
  return page({
    title: `Import of ${model.title}`,
    actor,
    current: '/ponds',
    scripts: isOver ? [] : ['import-progress'],
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href="/ponds">Ponds</a> / <a href="/ponds/import">Import</a>
            </p>
            <h1 safe>{model.title}</h1>
            <p class="lead" role="status" safe>
              {model.sentence}
            </p>
          </div>
          <div class="acts">
            <a class={model.faults.length > 0 ? 'btn first' : 'btn'} href="/ponds/import">
              Send another file
            </a>
            <a class={model.faults.length > 0 ? 'btn' : 'btn first'} href="/ponds">
              See the ponds
            </a>
          </div>
        </div>
        {model.progress ? progressBar(model.progress, model.href) : ''}
        {model.faults.length > 0 ? faultTable(model) : ''}
      </>
    ),
  });
}

function progressBar({ done, total, words }: NonNullable<ImportRunModel['progress']>, href: string): JSX.Element {
  return (
    <div class="prog" id="import-progress">
      <label for="import-bar" safe>
        {words}
      </label>
      {total === 0 ? (
        <progress id="import-bar" />
      ) : (
        <progress id="import-bar" value={String(done)} max={String(total)} />
      )}
      <p class="fine">
        You may leave this page; the import goes on. <a href={href}>Look again</a>
      </p>
    </div>
  );
}

function faultTable(model: ImportRunModel): JSX.Element {
  return (
    <>
      <section class="scroll" tabindex="0" aria-label="What cannot be used, line by line">
        <table class="list told">
          <thead>
            <tr>
              <th scope="col" class="r">
                Line
              </th>
              <th scope="col">Column</th>
              <th scope="col">Value</th>
              <th scope="col">What is allowed</th>
            </tr>
          </thead>
          <tbody>
            {model.faults.map((fault) => (
              <tr>
                <td class="r num" data-label="Line">
                  {fault.line}
                </td>
                <th scope="row">
                  <code safe>{fault.field}</code>
                </th>
                <td safe>{fault.value === '' ? '(empty)' : fault.value}</td>
                <td class="wide" safe>
                  {fault.allowed}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {model.furtherFaults ? (
        <p class="fine" safe>
          {model.furtherFaults}
        </p>
      ) : (
        ''
      )}
    </>
  );
}
