import { lifeBar } from '../../../charts/life-bar.js';
import { energyOfPumps } from './energy.view.js';
import type { PondPageModel } from './pond-page.view-model.js';

/** The register with each machine's remaining life, and what its pumps draw. */
export function machinery({ id, machines, energy }: PondPageModel): JSX.Element {
  return (
    <div>
      <h2>Machinery</h2>
      {machines.length === 0 ? (
        <p class="q">No machine is entered. Lamp hours, rinses and turnover need the register.</p>
      ) : (
        <dl class="facts">
          {machines.map((machine) => (
            <>
              <dt>
                <span safe>{machine.name}</span>
                <small safe>{machine.detail}</small>
              </dt>
              <dd class="num" safe>
                {machine.usedWords}
              </dd>
              {machine.usedShare === null ? '' : <dd class="wide">{lifeBar(machine.usedShare)}</dd>}
            </>
          ))}
        </dl>
      )}
      {energy.lines.length > 0 ? energyOfPumps(id, energy) : ''}
    </div>
  );
}
