import { px } from './chart-figures.js';

/** How much of a machine's life is used; the line runs to 100 %. Its figures stand in words beside it. */
export function lifeBar(usedShare: number): JSX.Element {
  const to = px(1 + 158 * Math.min(1, Math.max(0, usedShare)));
  return (
    <svg class="life" viewBox="0 0 160 12" preserveAspectRatio="none" aria-hidden="true">
      <path class="base" d="M1 6H159" />
      <path class={usedShare >= 0.9 ? 'span act' : 'span'} d={`M1 6H${to}`} />
      <path class="due" d={`M${to} 1v10`} />
      <path class="end" d="M159 2v8" />
    </svg>
  );
}
