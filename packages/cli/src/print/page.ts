/** A page of text that grows line by line and never leaves its width. */
import { columnsOf, left, right, wrap } from './wrap.ts';
import type { Style } from './style.ts';

export class Page {
  readonly width: number;
  readonly style: Style;
  #lines: string[] = [];

  constructor(width: number, style: Style) {
    this.width = width;
    this.style = style;
  }

  /** A wrapped paragraph; its second and later lines are indented by `hang` more. */
  text(text: string, indent = 0, hang = 0, paint: (line: string) => string = (line) => line): this {
    const lines = wrap(text, Math.max(8, this.width - indent - hang));
    lines.forEach((line, index) =>
      this.#lines.push(' '.repeat(indent + (index === 0 ? 0 : hang)) + paint(line)),
    );
    return this;
  }

  /** A bold line with an empty one before it. */
  heading(text: string): this {
    if (this.#lines.length > 0) this.blank();
    return this.text(text, 0, 0, this.style.bold);
  }

  /** Text that starts with a painted lead ("▲ danger") on its first line. */
  led(lead: string, paint: (line: string) => string, text: string, indent: number): this {
    const mark = '\u0000'.repeat(columnsOf(lead));
    const lines = wrap(`${mark} ${text}`, Math.max(8, this.width - indent));
    lines.forEach((line, index) =>
      this.#lines.push(index === 0 ? line.replace(mark, paint(lead)) : ' '.repeat(indent) + line),
    );
    return this;
  }

  /** A first column of `room` columns, and beside it a wrapped second one. */
  beside(first: string, second: string, room: number, indent = 0): this {
    const lines = wrap(second, Math.max(8, this.width - indent - room));
    lines.forEach((line, index) =>
      this.#lines.push(' '.repeat(indent) + left(index === 0 ? first : '', room) + line),
    );
    return this;
  }

  /** Left text and right text on one line; two lines where they do not fit. */
  pair(leftText: string, rightText: string, indent = 0): this {
    const room = this.width - indent;
    const clean = rightText.replaceAll('\u00A0', ' ');
    const lines = wrap(leftText, Math.max(8, room - columnsOf(clean) - 2));
    if (lines.length > 2 && columnsOf(clean) > room / 2) {
      this.text(leftText, indent);
      for (const line of wrap(rightText, room - 2)) this.#lines.push(' '.repeat(indent) + right(line, room));
      return this;
    }
    lines.forEach((line, index) => {
      const last = index === lines.length - 1;
      this.#lines.push(' '.repeat(indent) + (last ? left(line, room - columnsOf(clean)) + clean : line));
    });
    return this;
  }

  /** A line as it is. */
  raw(line: string): this {
    this.#lines.push(line.replaceAll('\u00A0', ' '));
    return this;
  }

  blank(): this {
    if (this.#lines.at(-1) !== '') this.#lines.push('');
    return this;
  }

  toString(): string {
    return `${this.#lines
      .map((line) => line.trimEnd())
      .join('\n')
      .trimEnd()}\n`;
  }
}
