/** A solid tag at each converter that goes on and off for ever: how long on, how long off. */
import { printValue, type LiveCycling } from '@loomwright/engine';
import type { ReactElement } from 'react';
import type { DrawingHandle } from './DrawingOver.tsx';
import { firstFree } from './spots.ts';

interface Props extends DrawingHandle {
  readonly looks: readonly { readonly forecast: { readonly cycling: readonly LiveCycling[] } }[];
}

export function HuntingTags({ looks, measured, scale, taken }: Props): ReactElement {
  const cycling = new Map(
    looks.flatMap((look) => look.forecast.cycling.map((each) => [each.part, each] as const)),
  );
  return (
    <>
      {[...cycling.values()].map((each) => {
        const box = measured.parts.get(each.part)?.box;
        if (box === undefined) return null;
        const lines = [
          'hunting',
          `on ${printValue(each.onMs, 'ms', true)}, off ${printValue(each.offMs, 'ms', true)}`,
        ];
        const size = tagSize(lines, scale);
        const x = (box.left + box.right - size.width) / 2;
        const at = firstFree(
          measured,
          [
            { x, y: box.top - size.height - 22 / scale },
            { x, y: box.top - size.height - 34 / scale },
            { x, y: box.bottom + 10 / scale },
            { x: x + 46 / scale, y: box.top - size.height - 22 / scale },
            { x: x - 46 / scale, y: box.top - size.height - 22 / scale },
            { x, y: box.top - size.height - 60 / scale },
            { x, y: box.bottom + 34 / scale },
          ].filter(({ y }) => y >= 0),
          size,
          taken,
        );
        return at === null ? null : <Tag key={each.part} {...at} {...size} scale={scale} lines={lines} />;
      })}
    </>
  );
}

const tagSize = (
  lines: readonly string[],
  scale: number,
): { readonly width: number; readonly height: number } => ({
  width: (Math.max(...lines.map((line) => line.length)) * 6.7 + 16) / scale,
  height: (lines.length * 16 + 8) / scale,
});

interface TagProps {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly scale: number;
  readonly lines: readonly string[];
}

function Tag({ x, y, width, height, scale, lines }: TagProps): ReactElement {
  return (
    <g className="tag">
      <rect x={x} y={y} width={width} height={height} />
      {lines.map((text, i) => (
        <text
          key={text}
          x={x + width / 2}
          y={y + ((i + 1) * 16) / scale}
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
