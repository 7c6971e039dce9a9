/**
 * Literal colours and sizes of mail, as inline styles: many mail programs keep nothing else. Values are those of the
 * design tokens, light; the dark ones stand in `DARK`, for programs that read a style element.
 */
const SANS = "Verdana,'Segoe UI',Arial,sans-serif";
const SERIF = 'Georgia,serif';

export const STYLE = {
  body: 'margin:0;padding:0;background:#F3EFE6',
  ground: `width:100%;background:#F3EFE6;color:#1D2726;font:16px/24px ${SANS};border-collapse:collapse`,
  pad: 'padding:24px 12px 40px',
  sheet:
    'width:100%;max-width:600px;margin:0 auto;background:#FBF8F2;border-top:4px solid #0C4A57;border-collapse:collapse',
  top: `padding:16px 28px;border-bottom:1px solid #D2C8B6;font:14px/20px ${SANS};color:#1D2726`,
  word: `display:block;font:bold 19px/24px ${SERIF}`,
  quiet: 'color:#404A47',
  inside: `padding:24px 28px 28px;font:16px/24px ${SANS};color:#1D2726`,
  h1: `margin:0 0 8px;font:bold 26px/32px ${SERIF};color:#1D2726`,
  h2: `margin:0;font:bold 19px/25px ${SERIF};color:#1D2726`,
  h2Spaced: `margin:26px 0 0;font:bold 19px/25px ${SERIF};color:#1D2726`,
  p: 'margin:8px 0 0',
  pSpaced: 'margin:26px 0 0',
  task: 'width:100%;margin-top:20px;background:#FFFFFF;border-collapse:collapse',
  edge: 'width:5px;font-size:1px;line-height:1px;background:#9C6509',
  edgeWater: 'width:5px;font-size:1px;line-height:1px;background:#0C4A57',
  taskIn: `padding:18px 20px 20px;border:1px solid #D2C8B6;border-left:0;font:16px/24px ${SANS};color:#1D2726`,
  amount: `margin:8px 0 0;font:bold 18px/24px ${SERIF};color:#0C4A57`,
  small: 'margin:2px 0 0;font-size:14px;line-height:20px;color:#404A47',
  caution: 'width:100%;margin-top:14px;border:2px solid #1D2726;border-collapse:collapse',
  cautionSign: 'width:40px;padding:12px 0 12px 14px;font-size:20px;line-height:24px;color:#9C6509;vertical-align:top',
  cautionText: `padding:12px 16px 12px 0;vertical-align:top;font:16px/24px ${SANS};color:#1D2726`,
  steps: 'margin:12px 0 4px;border-collapse:collapse',
  stepNumber: `width:26px;padding:3px 0;vertical-align:top;font:bold 17px/24px ${SERIF};color:#0C4A57`,
  stepText: `padding:3px 0;vertical-align:top;font:16px/24px ${SANS};color:#1D2726`,
  buttons: 'margin-top:18px;border-collapse:separate;border-spacing:0',
  first: 'background:#0C4A57;border:1px solid #0C4A57;border-radius:4px;text-align:center',
  firstLink: `display:block;padding:13px 25px;font:bold 16px/20px ${SANS};color:#FBF8F2;text-decoration:none;white-space:nowrap`,
  second: 'border:1px solid #0C4A57;border-radius:4px;text-align:center',
  secondLink: `display:block;padding:13px 18px;font:bold 16px/20px ${SANS};color:#0C4A57;text-decoration:none;white-space:nowrap`,
  third: 'text-align:center',
  thirdLink: `display:block;padding:13px 12px;font:bold 16px/20px ${SANS};color:#0C4A57;text-decoration:underline;white-space:nowrap`,
  gap: 'width:8px;font-size:1px;line-height:1px',
  list: 'width:100%;margin-top:8px;border-collapse:collapse',
  listDate: `width:124px;padding:8px 12px 8px 0;border-top:1px solid #D2C8B6;vertical-align:top;white-space:nowrap;font:16px/24px ${SANS};color:#404A47`,
  listText: `padding:8px 0;border-top:1px solid #D2C8B6;vertical-align:top;font:16px/24px ${SANS};color:#1D2726`,
  listRight: `padding:8px 0 8px 12px;border-top:1px solid #D2C8B6;vertical-align:top;text-align:right;font:16px/24px ${SANS};color:#1D2726`,
  listOutcome: `padding:8px 0 8px 12px;border-top:1px solid #D2C8B6;vertical-align:top;text-align:right;white-space:nowrap;font:16px/24px ${SANS};color:#1D2726`,
  link: 'color:#0C4A57',
  caption: 'margin:8px 0 0;font-size:14px;line-height:20px;color:#404A47;text-align:center',
  picture: `display:block;margin:14px auto 0;border:0;max-width:100%;height:auto;font:14px/20px ${SANS}`,
  foot: `padding:16px 28px 22px;border-top:1px solid #D2C8B6;font:13px/20px ${SANS};color:#404A47`,
} as const;

/** Read by mail programs that know media queries; the others show the light mail, with all its sense. */
export const DARK = `
:root { color-scheme: light dark; supported-color-schemes: light dark; }
@media (max-width: 480px) {
  .m-pad { padding: 0 0 24px !important; }
  .m-top, .m-in, .m-foot { padding-left: 18px !important; padding-right: 18px !important; }
  .m-task-in { padding: 16px !important; }
  .m-b a { padding-left: 12px !important; padding-right: 12px !important; }
}
@media (prefers-color-scheme: dark) {
  body, .m-ground { background: #181A17 !important; color: #EEE9DC !important; }
  .m-sheet { background: #21241F !important; border-color: #95CDD0 !important; }
  .m-task { background: #181A17 !important; }
  .m-top, .m-in, .m-task-in, .m-step, .m-h, .m-li, .m-ct { color: #EEE9DC !important; }
  .m-top, .m-task-in, .m-li, .m-ld, .m-foot { border-color: #3A3D35 !important; }
  .m-quiet, .m-ld, .m-foot { color: #C6C1B2 !important; }
  .m-amt, .m-n, .m-a, .m-b2 a, .m-b3 a { color: #95CDD0 !important; }
  .m-b1 { background: #95CDD0 !important; border-color: #95CDD0 !important; }
  .m-b1 a { color: #10201F !important; }
  .m-b2 { border-color: #95CDD0 !important; }
  .m-caut { border-color: #EEE9DC !important; }
  .m-edge { background: #E3A842 !important; }
  .m-edge-w { background: #95CDD0 !important; }
  .m-ci { color: #E3A842 !important; }
}`;
