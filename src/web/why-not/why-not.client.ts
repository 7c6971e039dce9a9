/** Narrows a list of reasons to the lines that hold every word typed. Without this script the whole list stands there. */
function start(field: HTMLElement): void {
  const list = document.getElementById(field.dataset.find ?? '');
  const input = field.querySelector('input');
  const count = field.querySelector('[role="status"]');
  if (!list || !input || !count) return;
  const lines = [...list.children] as HTMLElement[];
  const narrow = () => {
    const words = input.value.toLowerCase().split(/\s+/).filter(Boolean);
    let shown = 0;
    for (const line of lines) {
      const text = (line.textContent ?? '').toLowerCase();
      line.hidden = !words.every((word) => text.includes(word));
      if (!line.hidden) shown += 1;
    }
    count.textContent = shown === 0 ? 'No line has these words.' : shown === 1 ? '1 line' : `${shown} lines`;
  };
  input.addEventListener('input', narrow);
  field.hidden = false;
}

for (const field of document.querySelectorAll<HTMLElement>('[data-find]')) start(field);
