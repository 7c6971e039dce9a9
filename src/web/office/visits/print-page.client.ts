/* Shows the print buttons of a page and lets them print it. Without it the browser's own menu does. */
for (const button of document.querySelectorAll<HTMLButtonElement>('[data-print]')) {
  button.hidden = false;
  button.addEventListener('click', () => window.print());
}

export {};
