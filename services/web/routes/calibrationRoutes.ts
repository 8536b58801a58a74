import { z } from 'zod';
import { calibrationSchema, saveCalibrationSchema } from '../../../shared/api/probes.ts';
import { probeOwnsName } from '../../../shared/senml/channelName.ts';
import { yardIdOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import { audit } from '../audit.ts';
import { factsChanged } from '../factsChanged.ts';
import type { House } from '../house.ts';
import { badField } from '../problems/apiProblem.ts';
import { answers } from './answers.ts';

/** A channel's linear calibration: what is measured from now on is raw x gain + offset. */
export function calibrationRoutes(app: App, house: House): void {
  app.route({
    method: 'GET',
    url: '/api/calibrations',
    config: { access: 'viewer' },
    schema: { response: answers(z.array(calibrationSchema).readonly()) },
    handler: async (request) => house.records.probes.calibrations(yardIdOf(request)),
  });

  app.route({
    method: 'PUT',
    url: '/api/calibrations',
    config: { access: 'keeper' },
    schema: { body: saveCalibrationSchema, response: answers(calibrationSchema) },
    handler: async (request) => {
      const calibration = request.body;
      await refuseStrangeChannel(house, yardIdOf(request), calibration.channel);
      await house.records.probes.saveCalibration(calibration);
      await audit(house, request, {
        action: 'calibrated a channel',
        target: calibration.channel,
        detail: `gain ${calibration.gain}, offset ${calibration.offset}`,
      });
      factsChanged(house);
      return calibration;
    },
  });
}

/** Of another yard's channel nothing may be learnt or changed. */
async function refuseStrangeChannel(house: House, yardId: string, channel: string): Promise<void> {
  const [probes, placements] = await Promise.all([
    house.records.probes.list(yardId),
    house.records.placements.list(yardId),
  ]);
  const isOurs =
    probes.some(({ id }) => probeOwnsName(id, channel)) ||
    placements.some((placement) => placement.channel === channel);
  if (!isOurs) throw badField('channel', channel, 'a channel of a probe or placement of this yard');
}
