/** Survey: places and ways, the posts in every state, and which supply point may serve. */
import { useEffect, useState, type ReactElement } from 'react';
import { useBuild, useText } from '../../hooks.ts';
import { Segments } from '../../shell/Segments.tsx';
import { InState } from '../../shell/places.tsx';
import { hasServer } from '../../store/api.ts';
import { words } from '../../words.ts';
import type { SheetProps } from '../sheet.ts';
import { Photos } from './Photos.tsx';
import { Places } from './Places.tsx';
import './survey.css';
import { followSurvey } from './survey-store.ts';
import { Voltages } from './Voltages.tsx';

type View = 'voltages' | 'places' | 'photos';

const VIEWS: readonly View[] = ['voltages', 'places', 'photos'];

export function Survey({ phone }: SheetProps): ReactElement {
  const text = useText();
  const build = useBuild();
  const [view, setView] = useState<View>('voltages');
  useEffect(() => {
    if (text !== null) void followSurvey(text);
  }, [text]);
  return (
    <div className="survey">
      <InState>
        <Segments
          silent
          label={words.survey.views}
          value={view}
          options={[
            ['voltages', phone ? words.survey.voltagesShort : words.survey.voltages],
            ['places', words.survey.places],
            ...(hasServer ? ([['photos', words.photos.view]] as const) : []),
          ]}
          choose={(chosen) => setView(VIEWS.find((each) => each === chosen) ?? 'voltages')}
        />
      </InState>
      {build === null ? (
        <>
          <h1 className="lead">{words.sheets.survey}</h1>
          <p>{words.empty.says}</p>
        </>
      ) : view === 'voltages' ? (
        <Voltages phone={phone} />
      ) : view === 'places' ? (
        <Places />
      ) : (
        <Photos />
      )}
    </div>
  );
}
