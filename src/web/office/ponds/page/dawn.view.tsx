import { verdictSign } from '../../../charts/verdict-sign.js';
import type { DawnModel } from './dawn.view-model.js';

/** Tonight, in the heat. */
export function dawn(model: DawnModel): JSX.Element {
  return (
    <div class="words">
      <h2>Oxygen at dawn</h2>
      <dl class="facts">
        <dt>
          To expect tomorrow
          <small safe>{model.range}</small>
        </dt>
        <dd safe>{model.oxygen}</dd>
        <dd class="wide">
          {verdictSign(model.level, model.verdict)}
          <small safe>{model.basis}</small>
        </dd>
        <dt>
          Without power
          <small>from dusk, with every machine stopped</small>
        </dt>
        <dd safe>{model.hours}</dd>
      </dl>
    </div>
  );
}
