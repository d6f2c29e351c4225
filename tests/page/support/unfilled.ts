/** A pit that is dug and not filled yet: its air has been measured for three days. Not simulated: a pack a probe. */
import { connectAsync } from 'mqtt';

const HOUR_ms = 3_600_000;

const MEASURED_h = 72;

const PROBES = [
  { id: 'p21', x: 40, y: 30, depth: 25, humidity_RH: 78 },
  { id: 'p22', x: 80, y: 30, depth: 40, humidity_RH: 83 },
] as const;

/** The bed and its probes, for the site description. */
export function unfilledPit(endsAt: number) {
  const from = new Date(endsAt - MEASURED_h * HOUR_ms).toISOString();
  return {
    bed: {
      ...{ id: 'pit-c', name: 'Pit C by the fig tree', kind: 'stepped-pit', keeper: 'keeper-1' },
      steps: [
        { length: 120, width: 60, height: 25 },
        { length: 70, width: 60, height: 25 },
      ],
    },
    probes: PROBES.map(({ id, x, y, depth }) => ({ id, placements: [{ bed: 'pit-c', x, y, depth, from }] })),
  };
}

/** @param endsAt of the newest reading, ms */
export async function publishUnfilled(brokerUrl: string, site: string, endsAt: number): Promise<void> {
  const client = await connectAsync(brokerUrl);
  for (const { id, humidity_RH } of PROBES)
    await client.publishAsync(
      `sandlarder/v1/${site}/probes/${id}/readings`,
      JSON.stringify(packOf(humidity_RH, endsAt)),
      { qos: 1 },
    );
  await client.endAsync();
}

/** Air of a pit in the shade of its roof: 19 °C, three degrees up and down through the day. */
function packOf(humidity_RH: number, endsAt: number) {
  return Array.from({ length: 3 * MEASURED_h + 1 }, (_, index) => {
    const at = endsAt - (index * HOUR_ms) / 3;
    const day = Math.sin((2 * Math.PI * at) / (24 * HOUR_ms));
    return [
      { n: 'temperature', u: 'Cel', t: at / 1000, v: Math.round(10 * (19 + 3 * day)) / 10 },
      { n: 'humidity', u: '%RH', t: at / 1000, v: Math.round(10 * (humidity_RH - 2 * day)) / 10 },
    ];
  }).flat();
}
