/** Ephemerides of two-body orbits about the Moon as message text, for tests: the states by Kepler's equation. */
const MU_KM = 4902.8;

/** Solves E − e·sin E = M by Newton from M. */
const eccentricAnomaly = (mean: number, e: number): number => {
  const turns = Math.floor(mean / (2 * Math.PI) + 0.5) * 2 * Math.PI;
  const m = mean - turns;
  let E = e > 0.8 ? Math.PI * Math.sign(m || 1) : m;
  for (let i = 0; i < 60; i += 1) E -= (E - e * Math.sin(E) - m) / (1 - e * Math.cos(E));
  return E + turns;
};

export interface TwoBody {
  readonly semiMajorKm: number;
  readonly e: number;
  /** A periapsis, ms on the evenly running clock of the message. */
  readonly periapsisMs: number;
}

/** One revolution, ms. */
export const periodMs = ({ semiMajorKm }: TwoBody): number => 2000 * Math.PI * Math.sqrt(semiMajorKm ** 3 / MU_KM);

/** x, y, z, ẋ, ẏ, ż at an instant, in a plane tilted so that no axis is empty. */
export const stateAt = (orbit: TwoBody, atMs: number): number[] => {
  const { semiMajorKm: a, e } = orbit;
  const n = Math.sqrt(MU_KM / a ** 3);
  const E = eccentricAnomaly(n * ((atMs - orbit.periapsisMs) / 1000), e);
  const b = a * Math.sqrt(1 - e * e);
  const rate = n / (1 - e * Math.cos(E));
  const [x, y] = [a * (Math.cos(E) - e), b * Math.sin(E)];
  const [vx, vy] = [-a * Math.sin(E) * rate, b * Math.cos(E) * rate];
  const [c, s] = [Math.cos(1.1), Math.sin(1.1)];
  return [x, y * c, y * s, vx, vy * c, vy * s];
};

export interface MessageOptions {
  readonly from: number;
  readonly until: number;
  readonly stepMs: number;
  readonly metadata?: Readonly<Record<string, string>>;
}

/** "2031-01-01T00:00:00.000" of ms on the message's own calendar. */
export const epoch = (ms: number): string => new Date(ms).toISOString().slice(0, -1);

/** One segment; `metadata` replaces or adds keywords. */
export const segmentText = (orbit: TwoBody, { from, until, stepMs, metadata = {} }: MessageOptions): string => {
  const words = {
    OBJECT_NAME: "TARN",
    OBJECT_ID: "2031-001A",
    CENTER_NAME: "MOON",
    REF_FRAME: "ICRF",
    TIME_SYSTEM: "TDB",
    START_TIME: epoch(from),
    STOP_TIME: epoch(until),
    INTERPOLATION: "HERMITE",
    INTERPOLATION_DEGREE: "7",
    ...metadata,
  };
  const lines = ["META_START", ...Object.entries(words).map(([name, value]) => `${name} = ${value}`), "META_STOP", ""];
  for (let at = from; at <= until; at += stepMs)
    lines.push([epoch(at), ...stateAt(orbit, at).map((x) => x.toFixed(9))].join("  "));
  return `${lines.join("\n")}\n`;
};

export const HEADER =
  "CCSDS_OEM_VERS = 2.0\nCOMMENT invented\nCREATION_DATE = 2030-06-01T00:00:00\nORIGINATOR = TEST\n\n";
