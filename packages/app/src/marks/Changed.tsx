/** A value that became another has the marker behind it for a moment. */
import { useEffect, useState, type ReactElement } from 'react';

export function Changed({ value }: { readonly value: string }): ReactElement {
  const [shown, setShown] = useState({ value, times: 0 });
  useEffect(() => {
    setShown((last) =>
      last.value === value ? last : { value, times: last.value === '' ? 0 : last.times + 1 },
    );
  }, [value]);
  return (
    <span key={shown.times} className={shown.times > 0 ? 'changed' : undefined}>
      {value}
    </span>
  );
}
