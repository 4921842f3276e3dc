/**
 * What takes the focus on a drawing: a clear rectangle over each part and each wire's words. It has the name, and the drawn words are
 * left to the eye. It stays while its part or wire does, so that whoever walks by keys stays where they are when it is drawn anew.
 */
import { along, type Box, type Measured } from './measure.ts';
import { ADDED } from './shown.ts';

const SVG = 'http://www.w3.org/2000/svg';

/** Tab enters once: at the first part, or where one was last; arrows go on from there. */
export function makeFocusable(svg: SVGSVGElement, { parts, wires }: Measured): void {
  const ground = groundOf(svg);
  const known = spotsOf(ground);
  const keep = (id: string, group: SVGGElement, box: Box): void => {
    const spot = known.get(id) ?? newSpot(ground, id);
    known.delete(id);
    if (alike(over.get(spot), group, box)) return;
    over.set(spot, { group, box });
    const { left: x, top: y } = box;
    for (const [key, value] of Object.entries({ x, y, width: box.right - x, height: box.bottom - y }))
      put(spot, key, String(value));
    const name = group.getAttribute('aria-label');
    if (name === null) return;
    put(spot, 'aria-label', name);
    group.removeAttribute('role');
    group.removeAttribute('aria-label');
    for (const text of group.querySelectorAll('text')) text.setAttribute('aria-hidden', 'true');
  };
  for (const { id, group, box } of parts.values()) keep(id, group, box);
  for (const { id, group, label, points, length } of wires.values()) {
    const { x, y } = along(points, length / 2);
    keep(id, group, label ?? { left: x - 2, right: x + 2, top: y - 2, bottom: y + 2 });
  }
  for (const gone of known.values()) gone.remove();
  if (ground.querySelector('[tabindex="0"]') === null)
    ground.firstElementChild?.setAttribute('tabindex', '0');
}

/** The group that a spot lies over, and the box it was given. */
const over = new WeakMap<Element, { readonly group: Element; readonly box: Box }>();

const alike = (was: { readonly group: Element; readonly box: Box } | undefined, group: Element, box: Box) =>
  was?.group === group &&
  was.box.left === box.left &&
  was.box.top === box.top &&
  was.box.right === box.right &&
  was.box.bottom === box.bottom;

function groundOf(svg: SVGSVGElement): Element {
  const known = svg.querySelector(`:scope > [${ADDED}]`);
  if (known !== null) return known;
  const made = document.createElementNS(SVG, 'g');
  made.setAttribute(ADDED, '');
  svg.append(made);
  return made;
}

const spotsOf = (ground: Element): Map<string, SVGElement> =>
  new Map(
    [...ground.querySelectorAll<SVGElement>('[data-spot]')].map((spot) => [spot.dataset['spot'] ?? '', spot]),
  );

function newSpot(ground: Element, id: string): SVGElement {
  const spot = document.createElementNS(SVG, 'rect');
  spot.dataset['spot'] = id;
  spot.setAttribute('class', 'spot-target');
  spot.setAttribute('tabindex', '-1');
  spot.setAttribute('role', 'button');
  spot.setAttribute('aria-pressed', 'false');
  ground.append(spot);
  return spot;
}

/** Says of each whether it is picked up. */
export function pressSpots(root: ParentNode, picked: ReadonlySet<string>): void {
  for (const spot of root.querySelectorAll<SVGElement>('[data-spot]'))
    put(spot, 'aria-pressed', String(picked.has(spot.dataset['spot'] ?? '')));
}

/** Nothing is written that stands there already: the browser would lay it out again. */
function put(element: Element, name: string, value: string): void {
  if (element.getAttribute(name) !== value) element.setAttribute(name, value);
}

export function focusSpot(root: ParentNode | null, id: string): void {
  if (root === null) return;
  for (const other of root.querySelectorAll('[data-spot][tabindex="0"]'))
    other.setAttribute('tabindex', '-1');
  const spot = root.querySelector<SVGElement>(`[data-spot="${CSS.escape(id)}"]`);
  spot?.setAttribute('tabindex', '0');
  spot?.focus();
}
