import { guardRoutes } from './access/guard.ts';
import { sendSecurityHeaders } from './access/securityHeaders.ts';
import { answerRoutes } from './answer/answerRoutes.ts';
import { type App, createApp } from './app.ts';
import type { House } from './house.ts';
import { alarmRoutes } from './routes/alarmRoutes.ts';
import { calibrationRoutes } from './routes/calibrationRoutes.ts';
import { channelRoutes } from './routes/channelRoutes.ts';
import { dutyRoutes } from './routes/dutyRoutes.ts';
import { gatewayRoutes } from './routes/gatewayRoutes.ts';
import { journalRoutes } from './routes/journalRoutes.ts';
import { limitsRoutes } from './routes/limitsRoutes.ts';
import { linkRoutes } from './routes/linkRoutes.ts';
import { liveRoutes } from './routes/liveRoutes.ts';
import { lookRoutes } from './routes/lookRoutes.ts';
import { machineRoomRoutes } from './routes/machineRoomRoutes.ts';
import { messageRoutes } from './routes/messageRoutes.ts';
import { outlookRoutes } from './routes/outlookRoutes.ts';
import { peopleRoutes } from './routes/peopleRoutes.ts';
import { photoRoutes } from './routes/photoRoutes.ts';
import { pileRoutes } from './routes/pileRoutes.ts';
import { placementRoutes } from './routes/placementRoutes.ts';
import { probeDeskRoutes } from './routes/probeDeskRoutes.ts';
import { probeRoutes } from './routes/probeRoutes.ts';
import { pushRoutes } from './routes/pushRoutes.ts';
import { recordRoutes } from './routes/recordRoutes.ts';
import { replayRoutes } from './routes/replayRoutes.ts';
import { reportRoutes } from './routes/reportRoutes.ts';
import { seriesRoutes } from './routes/seriesRoutes.ts';
import { sessionRoutes } from './routes/sessionRoutes.ts';
import { setUpRoutes } from './routes/setUpRoutes.ts';
import { wallLinkRoutes } from './routes/wallLinkRoutes.ts';
import { wordingRoutes } from './routes/wordingRoutes.ts';
import { yardMapRoutes, yardRoutes } from './routes/yardRoutes.ts';
import { screens } from './screens.ts';
import { sweepSessions } from './sign-in/sweepSessions.ts';

/** Every subject's routes: each file holds schema, then handler. */
const subjects: readonly ((app: App, house: House) => void)[] = [
  sessionRoutes,
  linkRoutes,
  yardRoutes,
  yardMapRoutes,
  pileRoutes,
  outlookRoutes,
  seriesRoutes,
  journalRoutes,
  photoRoutes,
  limitsRoutes,
  replayRoutes,
  recordRoutes,
  alarmRoutes,
  probeRoutes,
  probeDeskRoutes,
  placementRoutes,
  calibrationRoutes,
  messageRoutes,
  channelRoutes,
  pushRoutes,
  reportRoutes,
  peopleRoutes,
  dutyRoutes,
  wordingRoutes,
  setUpRoutes,
  wallLinkRoutes,
  lookRoutes,
  machineRoomRoutes,
  liveRoutes,
  answerRoutes,
  gatewayRoutes,
];

/** The whole application, ready to listen. Guards come first, so that no route can be added in front of them. */
export async function buildApp(house: House): Promise<App> {
  const app = await createApp(house);
  guardRoutes(app as never, house);
  sendSecurityHeaders(app as never, house);
  for (const addRoutes of subjects) addRoutes(app, house);
  await screens(app, house);
  // Open event streams never end by themselves and would hold a stop up.
  app.addHook('preClose', async () => house.live.close());
  const stopSweeping = sweepSessions(house);
  app.addHook('onClose', async () => stopSweeping());
  await app.ready();
  return app;
}
