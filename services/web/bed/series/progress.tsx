/** Says that parts of the plots are still on their way, or why they are not there. */
import { useEffect } from 'preact/hooks';
import { Refusal } from '../../api/client.js';
import { networkChanged } from '../../api/network.js';
import { Button } from '../../parts/button.js';
import { messageOf } from '../../parts/form.js';
import { English, Notice } from '../../parts/notice.js';
import { say } from '../../words/say.js';
import { type SeriesModel, useDrawn } from './model.js';

export function Progress({ model }: { model: SeriesModel }) {
  useDrawn(model);
  const { busy, failed } = model.tiles;
  const again = (): void => {
    model.tiles.forgetFailure();
    model.want();
    model.touch();
  };
  useEffect(
    () =>
      networkChanged.hear(({ answers }) => {
        if (answers) again();
      }),
    [model],
  );
  return (
    <>
      <p class="series-progress soft" role="status">
        {busy && failed === undefined ? say('series.fetching') : ''}
      </p>
      {failed === undefined ? null : (
        <Notice kind="refusal" title={say('series.partMissing')}>
          <p>{failed instanceof Refusal ? <English>{failed.message}</English> : messageOf(failed)}</p>
          <Button kind="quiet" onPress={again}>
            {say('parts.tryAgain')}
          </Button>
        </Notice>
      )}
    </>
  );
}
