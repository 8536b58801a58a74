import { stringify } from 'yaml';
import type { Configuration } from './schema.ts';

const hidden = '(hidden)';

/** The effective configuration as YAML with passwords, connection strings and gateway headers hidden. */
export function showConfiguration(configuration: Configuration): string {
  return stringify({
    ...configuration,
    http: { ...configuration.http, metricsToken: hide(configuration.http.metricsToken) },
    broker: { ...configuration.broker, externalPassword: hide(configuration.broker.externalPassword) },
    series: {
      ...configuration.series,
      postgresUrl: hide(configuration.series.postgresUrl),
      influx: configuration.series.influx && {
        ...configuration.series.influx,
        token: hide(configuration.series.influx.token),
        password: hide(configuration.series.influx.password),
        writePath: configuration.series.influx.writePath?.replace(/\?.*/, `? ${hidden}`) ?? null,
      },
    },
    records: { postgresUrl: hide(configuration.records.postgresUrl) },
    sms: configuration.sms && {
      ...configuration.sms,
      url: hideQuery(configuration.sms.url),
      headers: Object.fromEntries(Object.keys(configuration.sms.headers).map((name) => [name, hidden])),
      body: configuration.sms.body && { ...configuration.sms.body, template: hidden },
      checkUrl: configuration.sms.checkUrl && hideQuery(configuration.sms.checkUrl),
      callbacks: configuration.sms.callbacks && {
        ...configuration.sms.callbacks,
        check: { ...configuration.sms.callbacks.check, secret: hidden },
      },
    },
    modem: configuration.modem && { ...configuration.modem, pin: hide(configuration.modem.pin) },
    email: configuration.email && { ...configuration.email, password: hide(configuration.email.password) },
    watch: { ...configuration.watch, heartbeatUrl: hide(configuration.watch.heartbeatUrl) },
    webhook: configuration.webhook && { ...configuration.webhook, secrets: hidden },
  });
}

function hide(value: string | null): string | null {
  return value === null ? null : hidden;
}

/** Gateways like to carry their key in the query or the user part of the address. */
function hideQuery(address: string): string {
  const url = new URL(address);
  const clean = `${url.protocol}//${url.host}${url.pathname}`;
  return url.search || url.username ? `${clean} ${hidden}` : clean;
}
