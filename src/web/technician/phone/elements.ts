/** An element with its text; text is never markup. */
export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  className = '',
  text = '',
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  if (className) made.className = className;
  made.textContent = text;
  return made;
}

/** Sets a text only when it is another one, so that it is not read out again. */
export function say(id: string, words: string): void {
  const place = document.getElementById(id);
  if (place && place.textContent !== words) place.textContent = words;
}

const SVG = 'http://www.w3.org/2000/svg';

export function sign(path: string): SVGElement {
  const svg = document.createElementNS(SVG, 'svg');
  svg.setAttribute('viewBox', '0 0 14 14');
  svg.setAttribute('aria-hidden', 'true');
  const line = document.createElementNS(SVG, 'path');
  line.setAttribute('d', path);
  svg.append(line);
  return svg;
}

export function button(words: string, onPress: () => void | Promise<void>, className = 'btn'): HTMLButtonElement {
  const made = element('button', className, words);
  made.type = 'button';
  made.addEventListener('click', () => void onPress());
  return made;
}
