/** A solid tag at each converter that goes on and off for ever: how long on, how long off. */
import { printValue, type LiveCycling } from '@loomwright/engine';
import type { ReactElement } from 'react';
import type { DrawingHandle } from './DrawingView.tsx';

interface Props extends DrawingHandle {
  readonly looks: readonly { readonly forecast: { readonly cycling: readonly LiveCycling[] } }[];
}

export function HuntingTags({ looks, measured, scale }: Props): ReactElement {
  const cycling = new Map(
    looks.flatMap((look) => look.forecast.cycling.map((each) => [each.part, each] as const)),
  );
  return (
    <>
      {[...cycling.values()].map((each) => {
        const box = measured.parts.get(each.part)?.box;
        if (box === undefined) return null;
        return (
          <Tag
            key={each.part}
            x={(box.left + box.right) / 2}
            y={box.bottom + 6 / scale}
            scale={scale}
            lines={['hunting', `on ${printValue(each.onMs, 'ms')}, off ${printValue(each.offMs, 'ms')}`]}
          />
        );
      })}
    </>
  );
}

interface TagProps {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
  readonly lines: readonly string[];
}

/** Its middle stands at `x`, its top at `y`. */
export function Tag({ x, y, scale, lines }: TagProps): ReactElement {
  const wide = (Math.max(...lines.map((line) => line.length)) * 6.7 + 16) / scale;
  const line = 16 / scale;
  return (
    <g className="tag">
      <rect x={x - wide / 2} y={y} width={wide} height={lines.length * line + 8 / scale} />
      {lines.map((text, i) => (
        <text
          key={text}
          x={x}
          y={y + (i + 1) * line}
          fontSize={13.5 / scale}
          textAnchor="middle"
          className={i === 0 ? 'first' : ''}
        >
          {text}
        </text>
      ))}
    </g>
  );
}
