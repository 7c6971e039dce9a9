/** Refreshes the progress of an import every second until it is over; without script there is a link that does the same. */
const REFRESH_MS = 1000;

async function refresh(): Promise<void> {
  const answer = await fetch(window.location.href, { headers: { accept: 'text/html' }, cache: 'no-store' });
  if (!answer.ok) return;
  const next = new DOMParser().parseFromString(await answer.text(), 'text/html');
  const bar = next.getElementById('import-progress');
  const standing = document.getElementById('import-progress');
  if (!bar || !standing) return window.location.reload();
  standing.replaceWith(bar);
}

const timer = window.setInterval(() => {
  refresh().catch(() => window.clearInterval(timer));
}, REFRESH_MS);
