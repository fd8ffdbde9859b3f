/** Bands under the head that ask for a decision: text that was recovered, files that could not be read, files that changed on disk meanwhile. */
import type { ReactNode } from 'react';
import { ClashBand } from '../parts/clash-band.tsx';
import { nameOf } from '../parts/place.tsx';
import { UnreadBand } from '../parts/unread-band.tsx';
import { dropRecovered, takeRecovered } from '../state/saving.ts';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';

export function Bands(): ReactNode {
  const { clashes, recovered } = shown.usePick('clashes', 'recovered');
  return (
    <>
      {recovered.length > 0 ? (
        <div className="band-message" role="alert">
          {words.recovered(recovered.length)} <span className="quiet">{recovered.map(({ path }) => nameOf(path)).join(', ')}</span>{' '}
          <button type="button" className="main" onClick={takeRecovered}>
            {words.takeBack}
          </button>{' '}
          <button type="button" onClick={() => void dropRecovered()}>
            {words.leaveIt}
          </button>
        </div>
      ) : null}
      <UnreadBand />
      {clashes.map((clash) => (
        <ClashBand key={clash.path} clash={clash} />
      ))}
    </>
  );
}
