/**
 * Keeps the conclusions and the year beside the form up to date while somebody types. The server does the sums; without
 * this script the button "Preview its year" does the same.
 */
const REST_MS = 400;

interface Preview {
  readonly said: Readonly<Record<string, string>>;
  readonly year: string;
}

function start(form: HTMLFormElement): void {
  const address = form.dataset.preview;
  if (!address) return;
  let timer = 0;
  let asking: AbortController | null = null;

  const refresh = async () => {
    asking?.abort();
    asking = new AbortController();
    const answer = await fetch(address, {
      method: 'POST',
      body: new URLSearchParams([...new FormData(form)].map(([name, value]) => [name, String(value)])),
      headers: { accept: 'application/json' },
      signal: asking.signal,
    });
    if (answer.ok) show((await answer.json()) as Preview);
  };
  const later = () => {
    window.clearTimeout(timer);
    // A request that was overtaken or failed leaves the last preview standing.
    timer = window.setTimeout(() => refresh().catch(() => undefined), REST_MS);
  };
  form.addEventListener('input', later);
  form.addEventListener('change', later);
}

function show({ said, year }: Preview): void {
  for (const [place, markup] of Object.entries(said)) replace(`said-${place}`, markup);
  replace('year', year);
}

/** Only what has changed is written, so that a screen reader does not say everything again. */
function replace(id: string, markup: string): void {
  const place = document.getElementById(id);
  if (!place) return;
  const next = document.createElement('div');
  next.innerHTML = markup;
  if (next.innerHTML !== place.innerHTML) place.innerHTML = markup;
}

const form = document.querySelector<HTMLFormElement>('#pond-form');
if (form) start(form);
