/** This build: its title, practice, volts; and what belongs to this device: theme, units, keys. */
import { useEffect, useState, type ReactElement } from 'react';
import { edit } from '../../build-store.ts';
import { useBuild, useView } from '../../hooks.ts';
import { giveFacts, firstStore } from '../../sheets/first-answer/first-store.ts';
import { useStore } from '../../store/store.ts';
import { keepView } from '../../view-store.ts';
import { words } from '../../words.ts';
import { Segments } from '../Segments.tsx';
import { Themes } from '../Themes.tsx';
import { CopyButton } from './Saving.tsx';

export function ThisBuild(): ReactElement {
  const build = useBuild();
  const units = useView((view) => view.units);
  const standing = useStore(firstStore, (state) => state.standing);
  const volts = String(build?.systems['vehicle'] ?? 12);
  const setPractice = async (practice: string): Promise<void> => {
    if (standing === 'six-only') await giveFacts({ practice }, words.build.practiceIs(practice));
    else await edit([{ set: ['practice'], to: practice }], words.build.practiceIs(practice));
  };
  const setUnits = (chosen: string): void => {
    const next = chosen === 'imperial' ? 'imperial' : 'metric';
    keepView({ units: next });
    if (build !== null && build.units !== next)
      void edit([{ set: ['units'], to: next }], words.build.unitsAre(next));
  };
  return (
    <>
      {build !== null && (
        <section className="margin-pad stack">
          <Title title={build.title} />
          <Segments
            label={words.build.practice}
            value={build.practice ?? ''}
            options={[
              ['europe', 'Europe'],
              ['north-america', 'North America'],
            ]}
            choose={(practice) => void setPractice(practice)}
          />
          {standing === 'six-only' && (
            <Segments
              label={words.build.volts}
              value={volts}
              options={[
                ['12', '12 V'],
                ['24', '24 V'],
              ]}
              choose={(system) => void giveFacts({ system: `${system} V` }, words.build.voltsAre(system))}
            />
          )}
          <p className="line">
            <CopyButton />
          </p>
        </section>
      )}
      <section className="margin-pad stack">
        <h3>{words.build.device}</h3>
        <Themes />
        <Segments
          label={words.build.units}
          value={build?.units ?? units}
          options={[
            ['metric', 'mm², m'],
            ['imperial', 'AWG, ft'],
          ]}
          choose={setUnits}
        />
      </section>
    </>
  );
}

function Title({ title }: { readonly title: string }): ReactElement {
  const [text, setText] = useState(title);
  useEffect(() => setText(title), [title]);
  const keep = (): void => {
    const next = text.trim();
    if (next !== '' && next !== title) void edit([{ set: ['title'], to: next }], words.build.titleIs(next));
  };
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <label className="field">
        <span className="label">{words.build.title}</span>
        <input value={text} maxLength={200} onChange={(event) => setText(event.target.value)} onBlur={keep} />
      </label>
    </form>
  );
}
