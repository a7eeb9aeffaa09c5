import { instrumentKinds, testDefinition, testKeys } from '@countercheck/measurement';
import { applianceKinds, fuels, ventings } from '@countercheck/assessment';
import { climateZones } from '@countercheck/contracts';
import * as z from 'zod';
import { newId, type NewId } from '../../components/reading-form/index.ts';
import type { CalculatorState } from './state.ts';

const key = z.string().min(1).max(60);
const number = z.number().min(-1e9).max(1e9).nullable();
const typed = z.record(key, z.object({ text: z.string().max(40), system: z.enum(['us', 'si']) }));
const choices = z.record(key, z.string().max(80));
const linkSchema = z.object({
  test: z.enum(testKeys),
  form: z.object({
    typed,
    choices,
    rows: z.array(z.object({ label: z.string().max(80), typed, choices })).max(60),
    confirmations: z.record(key, z.boolean()),
  }),
  instrument: z.object({
    kind: z.enum(instrumentKinds),
    accuracyPercent: number,
    accuracyAbsolute: number,
    resolution: number,
    ranges: z
      .array(z.object({ range: z.string().max(40), c: number, n: number, minPa: number, maxPa: number }))
      .max(20),
  }),
  facts: z.object({
    floorArea: number,
    volume: number,
    climateZone: z.enum(climateZones),
    ductsInside: z.boolean(),
    ventilationKind: z.enum(['none', 'exhaust', 'supply', 'balanced']),
    designedVentilation: number,
    appliance: z.enum(applianceKinds),
    fuel: z.enum(fuels),
    venting: z.enum(ventings),
  }),
  reported: z.record(key, number),
  ruleSet: z.string().max(120).nullable(),
});

// The first sign names the way of writing, so that links stay readable when it changes.
const version = '1.';
const longestLink = 8_000;
const mostContent = 65_536;

/** The page's inputs as text for the address: packed JSON, in letters that an address may carry. */
export async function packState(state: CalculatorState): Promise<string> {
  const rows = state.form.rows.map(({ label, typed, choices }) => ({ label, typed, choices }));
  const json = JSON.stringify({ ...state, form: { ...state.form, rows } });
  const packed = new Blob([json]).stream().pipeThrough(new CompressionStream('deflate-raw'));
  const bytes = new Uint8Array(await new Response(packed).arrayBuffer());
  const letters = btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
  return version + letters.replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

/** What a packed text may come to is bounded: a short link could otherwise fill the memory. */
async function unpacked(text: string): Promise<string | null> {
  const letters = text.slice(version.length).replaceAll('-', '+').replaceAll('_', '/');
  const bytes = Uint8Array.from(atob(letters), (letter) => letter.charCodeAt(0));
  const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw')).getReader();
  const decoder = new TextDecoder('utf-8', { fatal: true });
  let json = '';
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return json + decoder.decode();
    json += decoder.decode(value, { stream: true });
    if (json.length <= mostContent) continue;
    await reader.cancel();
    return null;
  }
}

/** The inputs that a link carries; null for anything that this page did not write. */
export async function unpackState(text: string, id: NewId = newId): Promise<CalculatorState | null> {
  if (!text.startsWith(version) || text.length > longestLink) return null;
  try {
    const json = await unpacked(text);
    const read = json === null ? null : linkSchema.safeParse(JSON.parse(json));
    if (!read?.success) return null;
    const { form, ...state } = read.data;
    if (!testDefinition(state.test).instrumentKinds.includes(state.instrument.kind)) return null;
    return { ...state, form: { ...form, rows: form.rows.map((row) => ({ ...row, key: id() })) } };
  } catch {
    return null;
  }
}
