/** The plan of the campaign South Rim Survey: six sorties from Tarn over two years, in three plan cases. */
import type { Entity } from "../entity/entities.ts";
import { DAY_MS } from "../ground/quantity.ts";
import { nextWindow } from "../entity/windows.ts";
import { freshFlight } from "../entity/flight.ts";
import { freshSortie } from "../entity/sortie.ts";
import { heronMission } from "./heron.ts";
import { tarn, tarnClasses } from "./tarn-hardware.ts";

type Flight = Entity<"flight">;
type Sortie = Entity<"sortie">;

const day = (iso: string): number => Date.parse(`${iso}T00:00:00Z`);

interface FlightLine {
  readonly key: string;
  readonly name: string;
  readonly craftId: string;
  /** When it arrived or is to arrive. */
  readonly arrives: string;
  readonly status?: Flight["status"];
  readonly hydrogenKg?: number;
  readonly oxygenKg?: number;
  readonly note?: string;
}

/** Flights of every case. The last Drover brings little hydrogen: that is what leaves sortie 5 short. */
const flightLines: readonly FlightLine[] = [
  { key: "packhorse-1", name: "Packhorse 1", craftId: "packhorse-1", arrives: "2030-12-20", status: "arrived" },
  {
    key: "drover-1",
    name: "Drover 1",
    craftId: "drover-1",
    arrives: "2031-02-05",

    status: "arrived",
    note: "Eleven days late: held on the pad by weather.",
  },
  { key: "packhorse-2", name: "Packhorse 2", craftId: "packhorse-2", arrives: "2031-04-18", status: "arrived" },
  { key: "drover-2", name: "Drover 2", craftId: "drover-2", arrives: "2031-06-25", status: "departed" },
  { key: "packhorse-3", name: "Packhorse 3", craftId: "packhorse-3", arrives: "2031-06-18", status: "firm" },
  { key: "packhorse-4", name: "Packhorse 4", craftId: "packhorse-1", arrives: "2031-08-22" },
  { key: "drover-3", name: "Drover 3", craftId: "drover-1", arrives: "2031-09-24" },
  { key: "packhorse-5", name: "Packhorse 5", craftId: "packhorse-2", arrives: "2031-12-03" },
  {
    key: "drover-4",
    name: "Drover 4",
    craftId: "drover-2",
    arrives: "2032-01-20",
    hydrogenKg: 6000,
    oxygenKg: 24_200,
  },
  { key: "packhorse-6", name: "Packhorse 6", craftId: "packhorse-3", arrives: "2032-03-28" },
  {
    key: "drover-5",
    name: "Drover 5",
    craftId: "drover-1",
    arrives: "2032-05-12",
    hydrogenKg: 1450,
    oxygenKg: 27_000,
    note: "Hydrogen tanking limited by the ground plant's overhaul.",
  },
  { key: "packhorse-7", name: "Packhorse 7", craftId: "packhorse-1", arrives: "2032-06-15" },
  { key: "packhorse-9", name: "Packhorse 9", craftId: "packhorse-3", arrives: "2032-08-24" },
  { key: "drover-6", name: "Drover 6", craftId: "drover-2", arrives: "2032-09-04" },
];

const cureLine: FlightLine = {
  key: "packhorse-8",
  name: "Packhorse 8",
  craftId: "packhorse-2",
  arrives: "2032-04-24",
  note: "Added to supply sortie 5.",
};

const flightOf = (planCaseId: string, line: FlightLine): Flight => {
  const craftClass = tarnClasses.find(({ id }) => line.craftId.startsWith(id));
  const arriveAt = day(line.arrives) + 9 * 3_600_000;
  return {
    id: `${planCaseId}.${line.key}`,
    planCaseId,
    key: line.key,
    name: line.name,
    craftId: line.craftId,
    origin: { kind: "source", sourceId: "ground" },
    depotId: "tarn",
    departAt: arriveAt - (craftClass?.tripDays ?? 0) * DAY_MS,
    arriveAt,
    berthDays: craftClass?.berthDays ?? 0,
    loads: (craftClass?.propellants ?? []).map(({ propellantId, loadKg }) => ({
      propellantId,
      loadedKg: { hydrogen: line.hydrogenKg, oxygen: line.oxygenKg }[propellantId] ?? loadKg,
    })),
    ...freshFlight,
    status: line.status ?? "planned",
    note: line.note ?? "",
  };
};

/** Days from which each sortie takes the next departure window. */
const sortieDays = ["2031-03-08", "2031-07-08", "2031-10-24", "2032-02-14", "2032-06-03", "2032-10-01"] as const;

const sortieOf = (planCaseId: string, index: number, profileId: string): Sortie => {
  const loadAt = nextWindow(tarn, day(sortieDays[index] ?? sortieDays[0]));
  return {
    id: `${planCaseId}.sortie-${index + 1}`,
    planCaseId,
    key: `sortie-${index + 1}`,
    campaignId: `${planCaseId}.south-rim`,
    landerId: "heron-1",
    depotId: "tarn",
    name: `Sortie ${index + 1}`,
    loadAt,
    returnAt: loadAt + 14 * DAY_MS,
    demand: { kind: "profile", profileId, ...heronMission },
    ...freshSortie,
    status: index === 0 ? "flown" : "planned",
  };
};

interface CaseLine {
  readonly id: string;
  readonly name: string;
  readonly basedOnId: string | null;
  readonly note: string;
  readonly extraFlights: readonly FlightLine[];
  readonly profileId: (sortieIndex: number) => string;
}

const caseLines: readonly CaseLine[] = [
  {
    id: "baseline",
    name: "Baseline",
    basedOnId: null,
    note: "As agreed in spring. Sortie 5 cannot be loaded.",
    extraFlights: [],
    profileId: () => "heron-direct",
  },
  {
    id: "extra-packhorse",
    name: "One more Packhorse",
    basedOnId: "baseline",
    note: "Packhorse 8 cures sortie 5.",
    extraFlights: [cureLine],
    profileId: () => "heron-direct",
  },
  {
    id: "cached-return",
    name: "Return propellant cached",
    basedOnId: "baseline",
    note: "From sortie 2 on the lander leaves the propellant for the way home in low orbit.",
    extraFlights: [],
    profileId: (index) => (index === 0 ? "heron-direct" : "heron-cached"),
  },
];

export const tarnCases: readonly Entity<"planCase">[] = caseLines.map((line, position) => ({
  id: line.id,
  name: line.name,
  basedOnId: line.basedOnId,
  shortPolicy: "stand down",
  horizonAt: day("2032-12-31"),
  position,
  note: line.note,
}));

export const tarnCampaigns: readonly Entity<"campaign">[] = caseLines.map(({ id }) => ({
  id: `${id}.south-rim`,
  planCaseId: id,
  key: "south-rim",
  name: "South Rim Survey",
  goal: "Six visits to the southern rim, two weeks each",
  holdLimitDays: 30,
}));

export const tarnFlights: readonly Flight[] = caseLines.flatMap((line) =>
  [...flightLines, ...line.extraFlights].map((flight) => flightOf(line.id, flight)),
);

export const tarnSorties: readonly Sortie[] = caseLines.flatMap((line) =>
  sortieDays.map((_, index) => sortieOf(line.id, index, line.profileId(index))),
);
