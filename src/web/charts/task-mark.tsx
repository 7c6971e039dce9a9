import { px } from './chart-figures.js';

export interface MarkFace {
  readonly number: number;
  readonly doneBy: 'technician' | 'homeowner';
  readonly needsAction: boolean;
}

/** The mark of a task inside a drawing: square = technician, circle = homeowner, halo = needs action. */
export function markAt(face: MarkFace, x: number, y: number, half = 9.6, textDrop = 3.6): JSX.Element {
  const kind = face.doneBy === 'technician' ? 'mk-t' : 'mk-h';
  return (
    <g class={`mk ${kind}${face.needsAction ? ' mk-act' : ''}`}>
      {face.doneBy === 'technician' ? square(x, y, half, face.needsAction) : circle(x, y, half, face.needsAction)}
      <text x={String(px(x))} y={String(px(y + textDrop))}>
        {face.number}
      </text>
    </g>
  );
}

function square(x: number, y: number, half: number, halo: boolean): JSX.Element {
  const side = px((half - 0.7) * 2);
  const haloSide = px(side + 6);
  return (
    <>
      {halo ? (
        <rect
          class="halo"
          x={String(px(x - haloSide / 2))}
          y={String(px(y - haloSide / 2))}
          width={String(haloSide)}
          height={String(haloSide)}
          rx="4.5"
        />
      ) : (
        ''
      )}
      <rect
        x={String(px(x - side / 2))}
        y={String(px(y - side / 2))}
        width={String(side)}
        height={String(side)}
        rx="2.5"
      />
    </>
  );
}

function circle(x: number, y: number, half: number, halo: boolean): JSX.Element {
  return (
    <>
      {halo ? <circle class="halo" cx={String(px(x))} cy={String(px(y))} r={String(px(half + 3))} /> : ''}
      <circle cx={String(px(x))} cy={String(px(y))} r={String(half)} />
    </>
  );
}

/** The mark by itself, beside a task in a list. */
export function taskMark(face: MarkFace): JSX.Element {
  return (
    <svg class="badge" viewBox="0 0 30 30" role="img" aria-label={markName(face)}>
      {markAt(face, 15, 15, 11.5, 4.3)}
    </svg>
  );
}

/** Accessible name, e.g. "4, homeowner, needs action". */
export function markName(face: MarkFace): string {
  return `${face.number}, ${face.doneBy}${face.needsAction ? ', needs action' : ''}`;
}
