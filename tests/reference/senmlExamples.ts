/** The worked examples of RFC 8428 section 5.1 and 6 as the reference pack lists them (SV-1 to SV-8). */
export const machine = 'urn:dev:ow:10e2073a01080063';

export const currentsPack = [
  {
    bn: 'urn:dev:ow:10e2073a0108006:',
    bt: 1.276020076001e9,
    bu: 'A',
    bver: 5,
    n: 'voltage',
    u: 'V',
    v: 120.1,
  },
  { n: 'current', t: -5, v: 1.2 },
  { n: 'current', t: -4, v: 1.3 },
  { n: 'current', t: -3, v: 1.4 },
  { n: 'current', t: -2, v: 1.5 },
  { n: 'current', t: -1, v: 1.6 },
  { n: 'current', v: 1.7 },
];

/** SV-8: the same pack in CBOR, 195 bytes. */
export const currentsCbor = Buffer.from(
  '87a721781b75726e3a6465763a6f773a3130653230373361303130383030363a' +
    '22fb41d303a15b00106223614120050067766f6c7461676501615602fb405e06' +
    '6666666666a3006763757272656e74062402fb3ff3333333333333a300676375' +
    '7272656e74062302fb3ff4cccccccccccda3006763757272656e74062202fb3f' +
    'f6666666666666a3006763757272656e74062102f93e00a3006763757272656e' +
    '74062002fb3ff999999999999aa3006763757272656e74060002fb3ffb333333' +
    '333333',
  'hex',
);

/** What both resolve to: [name, unit, value, seconds], in time order. */
export const currentsResolved = [
  ...[1.2, 1.3, 1.4, 1.5, 1.6].map((value, index) => ['current', 'A', value, 1276020071.001 + index]),
  ['voltage', 'V', 120.1, 1276020076.001],
  ['current', 'A', 1.7, 1276020076.001],
];

export const trackedPack = [
  { bn: machine, bt: 1.320067464e9, bu: '%RH', v: 20 },
  { u: 'lon', v: 24.30621 },
  { u: 'lat', v: 60.07965 },
  { t: 60, v: 20.3 },
  { u: 'lon', t: 60, v: 24.30622 },
  { u: 'lat', t: 60, v: 60.07965 },
  { t: 120, v: 20.7 },
  { u: 'lon', t: 120, v: 24.30623 },
  { u: 'lat', t: 120, v: 60.07966 },
  { u: '%EL', t: 150, v: 98 },
  { t: 180, v: 21.2 },
  { u: 'lon', t: 180, v: 24.30628 },
  { u: 'lat', t: 180, v: 60.07967 },
];

export const twoRoomsPack = [
  { bn: '2001:db8::2/', bt: 1.320078429e9, n: 'temperature', u: 'Cel', v: 25.2 },
  { n: 'humidity', u: '%RH', v: 30 },
  { bn: '2001:db8::1/', n: 'temperature', u: 'Cel', v: 12.3 },
  { n: 'humidity', u: '%RH', v: 67 },
];

export const settingsPack = [
  { bn: `${machine}:` },
  { n: 'temp', u: 'Cel', v: 23.1 },
  { n: 'heat', u: '/', v: 1 },
  { n: 'fan', u: '/', v: 0 },
];

export const kindsPack = [
  { bn: `${machine}:`, n: 'temp', u: 'Cel', v: 23.1 },
  { n: 'label', vs: 'Machine Room' },
  { n: 'open', vb: false },
  { n: 'nfv-reader', vd: 'aGkgCg' },
];
