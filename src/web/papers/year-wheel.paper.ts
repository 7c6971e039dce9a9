import { type YearWheelFigures, yearWheel } from '../charts/year-wheel.js';

/** The look of the wheel with literal colours and core fonts: paper knows no style sheet, and is always light. */
const STYLE = `
text { font-family: Helvetica; fill: #404a47; }
.mon { font-size: 12px; font-weight: bold; fill: #1d2726; }
.mt { font-weight: normal; fill: #404a47; }
.fdl { font-size: 10px; }
.isot { font-size: 9px; text-anchor: middle; }
.hub { fill: none; stroke: #d2c8b6; }
.hub1 { font-size: 13px; text-anchor: middle; }
.hub2 { font-size: 27px; font-weight: bold; text-anchor: middle; fill: #1d2726; }
.rule { fill: none; stroke: #857b69; stroke-width: 0.8; }
.tick { stroke: #857b69; stroke-width: 0.8; }
.iso { fill: none; stroke: #5c635c; stroke-width: 0.7; stroke-dasharray: 1.5 2.5; }
.track { fill: none; stroke: #e8e1d3; stroke-opacity: 0.55; }
.tb0 { fill: #e3e9e8; } .tb1 { fill: #b9d0d3; } .tb2 { fill: #86b3b6; }
.tb3 { fill: #529394; } .tb4 { fill: #2f6f66; } .tb5 { fill: #4a4a1e; }
.hx { stroke: #0c4a57; fill: none; } .dx { fill: #f4efe6; }
.fd1 { stroke: #404a47; stroke-width: 1.4; fill: none; }
.fd2 { stroke: #404a47; stroke-width: 5; fill: none; }
.fd3 { stroke: #404a47; stroke-width: 5; stroke-dasharray: 3 2; fill: none; }
.win { stroke: #4a858b; stroke-width: 3; fill: none; }
.hand { stroke: #1d2726; stroke-width: 1.6; } .handtip { fill: #1d2726; }
.later-dot { fill: #4a858b; }
.mark-crew { fill: #0c4a57; stroke: #0c4a57; stroke-width: 1.4; }
.mark-owner { fill: #fbf8f2; stroke: #0c4a57; stroke-width: 1.4; }
.number-crew { font-size: 10px; font-weight: bold; text-anchor: middle; fill: #fbf8f2; }
.number-owner { font-size: 10px; font-weight: bold; text-anchor: middle; fill: #0c4a57; }
`;

/** The year wheel as a drawing for paper. Nothing on it asks for action: a pack is kept for years. */
export function yearWheelDrawing(figures: YearWheelFigures): string {
  const marks = figures.marks.map((mark) => ({ ...mark, needsAction: false }));
  const { readOut: _, ...still } = figures as YearWheelFigures & { readOut?: unknown };
  const drawn = String(yearWheel({ ...still, marks } as YearWheelFigures));
  const svg = /<svg[\s\S]*<\/svg>/.exec(drawn)?.[0] ?? drawn;
  return withMarkClasses(svg).replace(/>/, ` xmlns="http://www.w3.org/2000/svg"><style>${STYLE}</style>`);
}

/** The setter of papers knows classes, but not what a class says of the things inside. */
function withMarkClasses(svg: string): string {
  return svg.replace(/<g class="mk mk-([th])">([\s\S]*?)<\/g>/g, (_, kind: string, inside: string) => {
    const who = kind === 't' ? 'crew' : 'owner';
    const classed = inside.replace(/<(rect|circle) /g, `<$1 class="mark-${who}" `);
    return `<g>${classed.replace('<text ', `<text class="number-${who}" `)}</g>`;
  });
}
