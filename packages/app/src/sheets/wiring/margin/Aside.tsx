/** Sets a finding aside, with a reason and a name; or takes it up again. */
import type { Finding } from '@loomwright/engine';
import { useState, type FormEvent, type ReactElement } from 'react';
import { edit } from '../../../build-store.ts';
import { today } from '../../../findings/GiveValue.tsx';
import { useBuild, useView } from '../../../hooks.ts';
import { keepView } from '../../../view-store.ts';
import { own } from '../words.ts';

export function Aside({ finding }: { readonly finding: Finding }): ReactElement {
  const build = useBuild();
  const [open, setOpen] = useState(false);
  if (finding.aside !== null) {
    const at = build?.aside.findIndex((each) => each.finding === finding.id) ?? -1;
    const { reason, by, date } = finding.aside;
    return (
      <p className="aside">
        <span className="small">
          {[reason, by, date].filter((text) => text !== undefined && text !== '').join('; ')}
        </span>
        {at >= 0 && (
          <button
            type="button"
            className="button"
            onClick={() => void edit([{ remove: ['aside', at] }], own.aside.backSays(finding.title))}
          >
            {own.aside.back}
          </button>
        )}
      </p>
    );
  }
  if (!open)
    return (
      <p className="aside">
        <button type="button" className="button" onClick={() => setOpen(true)}>
          {own.aside.open}
        </button>
      </p>
    );
  return <Form finding={finding} count={build?.aside.length ?? 0} done={() => setOpen(false)} />;
}

function Form({
  finding,
  count,
  done,
}: {
  readonly finding: Finding;
  readonly count: number;
  readonly done: () => void;
}): ReactElement {
  const who = useView((view) => view.who);
  const [reason, setReason] = useState('');
  const keep = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (reason.trim() === '' || who.trim() === '') return;
    const entry = { finding: finding.id, reason: reason.trim(), by: who.trim(), date: today() };
    const change = count === 0 ? { set: ['aside'], to: [entry] } : { add: ['aside', count], value: entry };
    const refused = await edit([change], own.aside.says(finding.title));
    if (refused.length === 0) done();
  };
  return (
    <form className="aside-form" onSubmit={(event) => void keep(event)}>
      <p>{own.aside.why}</p>
      <label className="field">
        <span className="label">{own.aside.reason}</span>
        {/* oxlint-disable-next-line jsx-a11y/no-autofocus -- it was called for */}
        <input autoFocus value={reason} onChange={(event) => setReason(event.target.value)} required />
      </label>
      <label className="field">
        <span className="label">{own.aside.who}</span>
        <input
          value={who}
          onChange={(event) => keepView({ who: event.target.value })}
          required
          autoComplete="name"
        />
      </label>
      <button type="submit" className="button">
        {own.aside.keep}
      </button>
    </form>
  );
}
