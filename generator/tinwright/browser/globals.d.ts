// What one script hands to another, and what the pages hand to the scripts. A script's own types stay in the script.

// ---- shell ----

interface TinwrightElements {
  button(text: string, act: () => void, more?: Record<string, any>): HTMLElement;
  make(tag: string, attributes?: Record<string, any>, ...children: (Node | string | null | undefined)[]): HTMLElement;
  save(name: string, text: string, type: string): void;
  today(): string;
}

interface TinwrightKeptHere {
  NO_COPY: string;
  databaseContent(): Promise<Record<string, any[]>>;
  eraseCopies(): Promise<void>;
  /** False when another page of the site has it open. */
  eraseDatabase(): Promise<boolean>;
  eraseTexts(): void;
  filesCopied(): Promise<number>;
  hasDatabase(): Promise<boolean>;
  letCopy(may: boolean): void;
  mayCopy(): boolean;
  texts(): { key: string; value: string }[];
}

declare var tinwrightElements: TinwrightElements;
declare var tinwrightKeptHere: TinwrightKeptHere;

// ---- shell ----

/** What the search knows of a page; texts are HTML without elements. */
interface SearchEntry {
  location: string;
  title: string;
  text: string;
  /** How people say it. */
  tags: string;
  /** How much it counts beside others, 1 when left out. */
  boost?: number;
}

// ---- seaming ----

/** What was typed: a value, or the question to ask about it. */
interface Entry {
  text: string;
  value: number | null;
  question: string;
  suggestion: number | null;
  step: number | null;
  unit: string;
}

interface Reading {
  dimension: string;
  point: string;
  /** Inches, or percent for a rating. */
  value: number;
  /** The unit of the last place written, 0 or left out when it is not known. */
  step?: number;
}

interface Extremes {
  least: number;
  greatest: number;
  leastAt: string;
  greatestAt: string;
  points: number;
  leastStep: number;
  greatestStep: number;
  coarsestStep: number;
}

interface SeamReadings {
  method: string;
  readings: Reading[];
  endPlateIn?: number | null;
  bodyPlateIn?: number | null;
  endPlateStep?: number;
  bodyPlateStep?: number;
  unit?: string;
}

interface Question {
  kind: string;
  dimension: string;
  point: string;
  text: string;
}

interface Limit {
  dimension: string;
  low?: number | null;
  aim?: number | null;
  high?: number | null;
}

interface SeamLimits {
  limits?: Limit[];
  percentOverlapLow?: number | null;
  overlapVariant?: string;
  buttingLow?: number | null;
  tightnessLow?: number | null;
  endPlateIn?: number | null;
  bodyPlateIn?: number | null;
}

interface SeenDefect {
  defect: string;
  title: string;
  disposition: string;
}

interface Computed {
  quantity: string;
  formula: string;
  least: number | null;
  greatest: number | null;
  uncertainty: number;
  uncertaintyMost: number;
  enoughPoints: boolean;
  inputs: [string, number][];
}

interface DimensionVerdict {
  dimension: string;
  least: number | null;
  greatest: number | null;
  low: number | null;
  aim: number | null;
  high: number | null;
  uncertainty: number;
  outcome: string;
  probability: number | null;
  outBy: number;
  formula: string;
  reason: string;
  inputs: [string, number][];
  way: string;
  unit: string;
}

interface SeamVerdict {
  outcome: string;
  parts: DimensionVerdict[];
  reasons: string[];
}

interface CauseProfile {
  cause: string;
  adjuster: string;
  minutes: number;
  likelihoods: Record<string, string>;
  effects: Record<string, string>;
  effectLikelihoods: Record<string, Record<string, string>>;
  extents: string[];
  repeats: string[];
  after: string[];
}

interface Signs {
  defects?: string[];
  absent?: string[];
  directions?: Record<string, string>;
  extent?: string | null;
  repeats?: string | null;
  lastChange?: string | null;
}

interface Sign {
  kind: string;
  key: string;
  answer: string;
}

interface Distinction {
  kind: string;
  key: string;
  first: string[];
  second: string[];
}

interface Ranked {
  cause: string;
  word: string;
  share: number;
  reasons: { sign: Sign; stance: string }[];
}

interface Ranking {
  causes: Ranked[];
  unknownShare: number;
  explained: boolean;
  apart: Distinction[];
}

interface Confirmed {
  sealer: string;
  defect: string;
  cause: string;
  times: number;
}

/** How often a cause was confirmed, by what it was confirmed behind and its id. */
type Cases = Record<string, Record<string, number>>;

interface Experience {
  own: Cases;
  others: Cases;
  behind: Record<string, string[]>;
}

interface Ask {
  kind: string;
  key: string;
  minutes: number;
  answers: string[];
}

interface Check {
  cause: string;
  adjuster: string;
  minutes: number;
  share: number;
}

interface Screw {
  adjuster: string;
  tighten?: string | null;
  loosen?: string | null;
  travelPerTurnIn?: number | null;
  /** Numerator and denominator of a part of a turn. */
  safeStep?: [number, number] | null;
}

interface CorrectionAdvice {
  adjuster: string;
  direction: string;
  how: string | null;
  turns: [number, number] | null;
  amount: string;
  notes: string[];
  retest: string;
}

/** A formula; its functions take the values of `symbols` in order. */
interface SeamingFormula {
  name: string;
  quantity: string;
  title: string;
  symbol: string;
  unit: string;
  variant: string;
  symbols: string[];
  source: string;
  where: string;
  grade: string;
  gradeText: string;
  text: string;
  plain: string;
  mathml: string;
  evaluate: (...values: number[]) => number;
  divisor: ((...values: number[]) => number) | null;
  partials: Record<string, (...values: number[]) => number>;
}

/** Constants of the reasoning; what each means stands beside it in tinwright.seaming. */
interface SeamingConstants {
  symbols: Record<string, string>;
  dimensions: string[];
  labels: Record<string, string>;
  percents: string[];
  units: Record<string, string>;
  pointsNeeded: Record<string, number>;
  sideSeamNote: string;
  variants: string[];
  dimensionOf: Record<string, string>;
  raises: Record<string, string[]>;
  mostIn: number;
  leastIn: number;
  mmFrom: number;
  spread: number;
  plateMostIn: number;
  plateLeastIn: number;
  platePart: number;
  wrongUnit: number;
  full: number;
  apart: number;
  toldAs: Record<string, string>;
  guardFactor: number;
  close: number;
  adjusters: string[];
  defectSeen: Record<string, number>;
  defectAbsent: Record<string, number>;
  unknownSeen: number;
  unknownAbsent: number;
  directionAlong: Record<string, number[]>;
  directionVaries: Record<string, number>;
  directionUnclaimed: Record<string, number>;
  directionUnknown: Record<string, number>;
  placeListed: number;
  placeOther: number;
  placeUnknown: number;
  changeListed: number;
  changeOther: number;
  likelyPart: number;
  possiblePart: number;
  finest: number;
  closeShare: number;
  priorCases: number;
  stages: Record<string, number>;
  minutes: Record<string, number>;
  worth: number;
  answers: Record<string, string[]>;
  gauged: string[];
  setInSteps: string[];
}

interface TinwrightSeamingSentences {
  sentence(name: SentenceName, values?: Record<string, string | number>): string;
}

interface TinwrightSeamingFormulas {
  constants: SeamingConstants;
  formulas: Record<string, SeamingFormula>;
}

interface TinwrightSeamingValues {
  compareText(one: string, other: string): number;
  /** What a map has of its own under a key. */
  get<Value, Missing>(map: Record<string, Value> | null | undefined, key: string, missing: Missing): Value | Missing;
  isMissing(value: unknown): value is null | undefined;
  orNull<Value>(value: Value | null | undefined): Value | null;
}

interface TinwrightSeamingWording {
  inchesText(value: number): string;
  isPercent(dimension: string): boolean;
  lengthText(value: number, unit?: string): string;
  percentText(value: number): string;
  spanText(dimension: string, least: number, greatest: number, unit?: string): string;
  valueText(dimension: string, value: number, unit?: string): string;
}

interface TinwrightSeamingReadings {
  extremes(seam: SeamReadings, dimension: string): Extremes | null;
  findUnit(written: string[], sheet: string): string;
  parsePercent(text: string): Entry;
  parseReading(text: string, unit?: string): Entry;
  pointsNeeded(seam: SeamReadings, dimension: string): number;
}

interface TinwrightSeamingFormula {
  formulaIsDefined(name: string, values: Record<string, number>): boolean;
  formulaPlain(name: string, numbers?: Record<string, string>): string;
  formulaUncertainty(name: string, values: Record<string, number>, uncertainties: Record<string, number>): number;
  formulaValue(name: string, values: Record<string, number>): number;
}

interface TinwrightSeamingGuard {
  compare(value: number, low: number | null, high: number | null, uncertainty: number): string;
  conformanceProbability(value: number, low: number | null, high: number | null, uncertainty: number): number;
  readingUncertainty(stated: number, step: number): number;
}

interface TinwrightSeamingComputed {
  compute(seam: SeamReadings, variant: string, uncertainties: Record<string, number>): Computed[];
  computeOne(seam: SeamReadings, name: string, uncertainties: Record<string, number>): Computed;
}

interface TinwrightSeamingQuestions {
  findQuestions(seam: SeamReadings, limits?: SeamLimits | null, uncertainties?: Record<string, number>): Question[];
}

interface TinwrightSeamingVerdict {
  findAmounts(verdict: SeamVerdict): Record<string, number>;
  findDirections(verdict: SeamVerdict): Record<string, string>;
  judge(
    seam: SeamReadings,
    limits: SeamLimits | null,
    uncertainties: Record<string, number>,
    defects?: SeenDefect[],
    variant?: string,
  ): SeamVerdict;
}

interface TinwrightSeamingConfirmed {
  holdUnconfirmed(verdict: SeamVerdict, said: string): SeamVerdict;
}

interface TinwrightSeamingSigns {
  isAgainst(cause: CauseProfile, sign: Sign): boolean;
  isFault(sign: Sign): boolean;
  listSigns(signs: Signs): Sign[];
  signsInOrder(signs: Sign[]): Sign[];
  speaksFor(cause: CauseProfile, sign: Sign): boolean;
  weigh(cause: CauseProfile, sign: Sign): number;
  weighUnknown(sign: Sign): number;
}

interface TinwrightSeamingExperience {
  addCases(shares: number[], counts: number[]): number[];
  findExperience(
    confirmed: Confirmed[],
    measured: Record<string, Record<string, string>>,
    signs: Signs,
    sealer?: string | null,
  ): Experience | null;
  isBehind(experience: Experience, cause: string, sign: Sign): boolean;
}

interface TinwrightSeamingCauses {
  findDistinctions(first: CauseProfile, second: CauseProfile, signs: Signs): Distinction[];
  findPosterior(priors: number[], likelihoods: number[][]): number[];
  /** The share of each cause in the order given, and last that of a cause which is none of them. */
  findShares(causes: CauseProfile[], found: Sign[], experience?: Experience | null): number[];
  guessShares(causes: CauseProfile[], found: Sign[]): number[];
  inOrder<Cause extends CauseProfile>(causes: Cause[]): Cause[];
  rank(causes: CauseProfile[], signs: Signs, experience?: Experience | null): Ranking;
}

interface TinwrightSeamingNextQuestion {
  findNext(causes: CauseProfile[], signs: Signs, asks?: Ask[] | null, experience?: Experience | null): Ask | null;
  listQuestions(causes: CauseProfile[], signs: Signs): Ask[];
}

interface TinwrightSeamingOrder {
  expectedMinutes(order: Check[]): number;
  orderChecks(checks: Check[]): Check[];
}

interface TinwrightSeamingCorrection {
  correct(adjuster: string, direction: string, screw?: Screw | null, outByIn?: number | null): CorrectionAdvice;
  turnsText(turns: [number, number]): string;
}

/** Everything of the room under one name; each part is one script and one module of tinwright.seaming. */
interface TinwrightSeaming
  extends
    TinwrightSeamingFormulas,
    TinwrightSeamingSentences,
    TinwrightSeamingWording,
    TinwrightSeamingReadings,
    TinwrightSeamingFormula,
    TinwrightSeamingGuard,
    TinwrightSeamingComputed,
    TinwrightSeamingQuestions,
    TinwrightSeamingVerdict,
    TinwrightSeamingConfirmed,
    TinwrightSeamingSigns,
    TinwrightSeamingExperience,
    TinwrightSeamingCauses,
    TinwrightSeamingNextQuestion,
    TinwrightSeamingOrder,
    TinwrightSeamingCorrection {}

declare var tinwrightSeaming: TinwrightSeaming;
declare var tinwrightSeamingFormulas: TinwrightSeamingFormulas;
declare var tinwrightSeamingSentences: TinwrightSeamingSentences;
declare var tinwrightSeamingValues: TinwrightSeamingValues;
declare var tinwrightSeamingWording: TinwrightSeamingWording;
declare var tinwrightSeamingReadings: TinwrightSeamingReadings;
declare var tinwrightSeamingFormula: TinwrightSeamingFormula;
declare var tinwrightSeamingGuard: TinwrightSeamingGuard;
declare var tinwrightSeamingComputed: TinwrightSeamingComputed;
declare var tinwrightSeamingQuestions: TinwrightSeamingQuestions;
declare var tinwrightSeamingVerdict: TinwrightSeamingVerdict;
declare var tinwrightSeamingConfirmed: TinwrightSeamingConfirmed;
declare var tinwrightSeamingSigns: TinwrightSeamingSigns;
declare var tinwrightSeamingExperience: TinwrightSeamingExperience;
declare var tinwrightSeamingCauses: TinwrightSeamingCauses;
declare var tinwrightSeamingNextQuestion: TinwrightSeamingNextQuestion;
declare var tinwrightSeamingOrder: TinwrightSeamingOrder;
declare var tinwrightSeamingCorrection: TinwrightSeamingCorrection;

// ---- practice ----

interface PracticeChance {
  draw(): number;
  whole(count: number): number;
  error(uncertainty: number): number;
}

interface TinwrightPracticeChance {
  startChance(seed: number): PracticeChance;
}

interface PracticeFault {
  kind: string;
  amount: number;
  at: number | null;
}

interface PracticeRemedy {
  verb: string;
  target: string;
}

/** How far from right everything stands at one angle, as `Setting` in Python. */
type PracticeSetting = Record<PracticeSettingPart, number>;
type PracticeSettingPart =
  "press" | "first" | "second" | "slack" | "seat" | "flange" | "curl" | "packed" | "bump" | "wrinkle" | "broken";

interface TinwrightPracticeFault {
  practiceRemedies: Record<string, PracticeRemedy>;
  screws: string[];
  wandering: string[];
}

interface TinwrightPracticeSetting {
  angles: number;
  stepIn: number;
  practiceEffects: Record<string, [PracticeSettingPart, number, string][]>;
  setAround(faults: PracticeFault[], turned: Record<string, number>, chance: PracticeChance): PracticeSetting[];
}

/** The seam at one angle, as `Section` in Python. */
interface PracticeSection {
  countersink: number;
  width: number;
  thickness: number;
  bodyHook: number;
  coverHook: number;
  overlap: number;
  tightness: number;
  ridge: string;
}

interface PracticeSeam {
  settings: PracticeSetting[];
  sections: PracticeSection[];
}

interface PracticeCan {
  code: string;
  limits: SeamLimits;
}

interface TinwrightPracticeSeam {
  makeSeam(settings: PracticeSetting[], can: PracticeCan): PracticeSeam;
  seamAround(seam: PracticeSeam, dimension: string): number[];
}

interface PracticeShown {
  defect: string;
  at: number;
  degrees: number;
}

interface TinwrightPracticeShowing {
  findShown(settings: PracticeSetting[]): PracticeShown[];
}

interface PracticeReading {
  dimension: string;
  point: string;
  value: number;
  step: number;
}

interface TinwrightPracticeReading {
  readSeam(
    seam: PracticeSeam,
    dimensions: string[],
    uncertainties: Record<string, number>,
    chance: PracticeChance,
    worst: number | null,
  ): PracticeReading[];
}

interface PracticeAction {
  verb: string;
  target?: string;
  amount?: number;
}

interface PracticeBenchedCan {
  number: number;
  seam: PracticeSeam;
  isGood: boolean;
  isFood: boolean;
  isFinished: boolean;
  isTorn: boolean;
  fate: string;
}

interface PracticeOutcome {
  action: { verb: string; target: string; amount: number };
  minutes: number;
  cans: number;
  can: number | null;
  readings: PracticeReading[];
  shown: PracticeShown[];
  feel: string;
  found: string[];
  caution: string;
  refused: string;
}

interface PracticeScenario {
  scenario: string;
  faults: PracticeFault[];
  sealer: {
    sealer: string;
    drive: string;
    adjusters: { adjuster: string; safeStepEighths: number }[];
    stack: string[];
  };
  can: PracticeCan;
  minutes: Record<string, number>;
  uncertainties: Record<string, number>;
  budgetCans: number;
  budgetMinutes: number;
  foodBefore: number;
  grade: number;
  seed: number;
}

interface PracticeRound {
  readonly scenario: PracticeScenario;
  readonly log: PracticeOutcome[];
  readonly cans: PracticeBenchedCan[];
  readonly declared: string[];
  readonly minutes: number;
  readonly cansSpent: number;
  readonly faults: PracticeFault[];
  readonly turned: Record<string, number>;
  readonly hasPower: boolean;
  readonly isFinished: boolean;
  readonly isRepaired: boolean;
  do(action: PracticeAction): PracticeOutcome;
}

interface TinwrightPracticeRound {
  startRound(scenario: PracticeScenario): PracticeRound;
  isWithin(seam: PracticeSeam, can: PracticeCan): boolean;
}

interface PracticeDebrief {
  lines: { line: string; isKept: boolean; at: number | null }[];
  points: number;
  hasPassed: boolean;
  causes: string[];
}

interface TinwrightPracticeDebrief {
  rubric: Record<string, string>;
  debrief(bench: PracticeRound, weights?: Record<string, number>): PracticeDebrief;
}

/** What is known at a step of a round. */
interface PracticeKnown {
  hasPower: boolean;
  decided: Set<number>;
  lastCan: number;
  checked: Record<string, PracticeOutcome>;
  goodCans: number;
  feels: Record<string, string>;
  looked: Set<string>;
  found: string[];
  turning: string;
  causes: string[];
  declared: Set<string>;
}

interface TinwrightPracticeKnown {
  findKnown(scenario: PracticeScenario, log: PracticeOutcome[]): PracticeKnown;
  judgeCan(scenario: PracticeScenario, checked: Record<string, PracticeOutcome>): [boolean, Signs];
  judgeReadings(scenario: PracticeScenario, readings: PracticeReading[], shown?: PracticeShown[]): SeamVerdict;
}

interface TinwrightPracticeCareful {
  nextStep(scenario: PracticeScenario, log: PracticeOutcome[], causes: CauseProfile[]): PracticeAction;
  /** Eighths of a turn of a screw that are safe at a time. */
  safeStep(scenario: PracticeScenario, screw: string): number;
}

interface TinwrightPracticeBench
  extends
    TinwrightPracticeChance,
    TinwrightPracticeFault,
    TinwrightPracticeSetting,
    TinwrightPracticeSeam,
    TinwrightPracticeShowing,
    TinwrightPracticeReading,
    TinwrightPracticeRound,
    TinwrightPracticeDebrief,
    TinwrightPracticeKnown,
    TinwrightPracticeCareful {}

declare var tinwrightPracticeBench: TinwrightPracticeBench;
declare var tinwrightPracticeChance: TinwrightPracticeChance;
declare var tinwrightPracticeFault: TinwrightPracticeFault;
declare var tinwrightPracticeSetting: TinwrightPracticeSetting;
declare var tinwrightPracticeSeam: TinwrightPracticeSeam;
declare var tinwrightPracticeShowing: TinwrightPracticeShowing;
declare var tinwrightPracticeReading: TinwrightPracticeReading;
declare var tinwrightPracticeKnown: TinwrightPracticeKnown;
declare var tinwrightPracticeCareful: TinwrightPracticeCareful;
declare var tinwrightPracticeDebrief: TinwrightPracticeDebrief;
declare var tinwrightPracticeRound: TinwrightPracticeRound;

/** A scenario as the page has it: the records' or one made by chance. */
interface PracticePlay {
  id: string;
  title: string;
  story: string;
  grade: number;
  sealer: string;
  can: string;
  faults: PracticeFault[];
  cans: number;
  minutes: number;
  food: number;
  seed: number;
}

interface TinwrightPracticeData {
  plays: PracticePlay[];
  sealers: Record<string, { title: string; page: string; plain: PracticeScenario["sealer"] }>;
  cans: Record<string, { code: string; aroundMm: number; plain: PracticeCan }>;
  causes: Record<string, { title: string; page: string; say: string }>;
  defects: Record<string, { title: string }>;
  profiles: CauseProfile[];
  minutes: Record<string, number>;
  uncertainties: Record<string, number>;
  weights: Record<string, number>;
  motorPage: string;
}

interface TinwrightPracticeWords {
  CHANGES: [string, string, string][];
  DIMENSIONS: Record<string, string>;
  PARTS: Record<string, string>;
  SCREWS: Record<string, string>;
  defectTitle(defect: string): string;
  sayAction(action: { verb: string; target?: string; amount?: number }): string;
  sayOutcome(outcome: PracticeOutcome, aroundMm: number): string;
  sayWhere(shown: PracticeShown, aroundMm: number): string;
  titleOf(cause: string): string;
  turns(eighths: number): string;
  upper(text: string): string;
}

interface TinwrightPracticeTold {
  tellRound(round: PracticeRound, aroundMm: number, hints: number): { judged: PracticeDebrief; told: HTMLElement[] };
}

interface TinwrightPracticeMade {
  makePlay(grade: number, seed: number): PracticePlay;
  scenarioOf(play: PracticePlay): PracticeScenario;
}

interface TinwrightPracticeDrawn {
  drawSeam(scenario: PracticeScenario, readings: PracticeReading[]): HTMLElement | null;
}

declare var tinwrightPracticeData: TinwrightPracticeData;
declare var tinwrightPracticeWords: TinwrightPracticeWords;
declare var tinwrightPracticeTold: TinwrightPracticeTold;
declare var tinwrightPracticeMade: TinwrightPracticeMade;
declare var tinwrightPracticeDrawn: TinwrightPracticeDrawn;

// ---- advice ----

/** Inches, or units of a drawing. */
type SeamPoint = [number, number];

/** A seam as it is drawn, in inches. */
interface SectionDimensions {
  bodyHook: number;
  coverHook: number;
  seamWidth: number;
  seamThickness: number;
  countersink: number;
  endPlate: number;
  bodyPlate: number;
}

interface SectionOptions {
  title: string;
  /** Dimensions out of their limits. */
  out?: string[];
  /** Dimensions not measured. */
  guessed?: string[];
  unit?: string;
}

interface TinwrightSeamLayers {
  GOOD_SEAM: SectionDimensions;
  layers(dims: SectionDimensions): { lid: SeamPoint[]; body: SeamPoint[] };
}

interface TinwrightDrawing extends TinwrightSeamLayers {
  section(dims: SectionDimensions, options: SectionOptions): SVGElement;
}

interface PageLink {
  title: string;
  page: string;
}

interface CauseData extends CauseProfile, PageLink {
  say: string;
  direction: string;
  correction: string[];
  procedure: PageLink;
  retest: PageLink;
  check: { do: string; if_so: string; if_not: string };
}

interface DefectData extends PageLink {
  id: string;
  summary: string;
  /** What it is, said as dimensions and their directions. */
  measured: Record<string, string>;
  /** Limits that it is out of, each with the direction. */
  outOf: [string, string][];
  disposition: string;
  place: string;
  /** What to do with the can. */
  can: string[];
}

interface SealerData extends PageLink {
  id: string;
  invented: boolean;
  screws: Record<string, Screw>;
}

interface SpecificationData extends PageLink {
  id: string;
  invented: boolean;
  /** Why nothing is accepted by it; empty when it was read against its paper. */
  unconfirmed: string;
  cans: string[];
  endPlate: number;
  bodyPlate: number;
  limits: SeamLimits;
}

/** What the pages beside the machine are given of the records; the bench log has less of it. */
interface BenchData {
  office: string;
  variant: string;
  uncertainties: Record<string, number>;
  words: Record<string, string>;
  changeWords: Record<string, string>;
  directions: Record<string, [string, string]>;
  computedDirections: Record<string, [string, string]>;
  points: string[];
  extents: string[];
  repeats: string[];
  changes: string[];
  /** Address of what to do when a check fails; empty when no record says it. */
  fails: string;
  finder: string;
  benchLog: string;
  causes: CauseData[];
  defects: DefectData[];
  sealers: SealerData[];
  specifications: SpecificationData[];
  seenHere?: { invented: boolean; confirmed: Confirmed[] };
}

interface BenchAdvice {
  ranking: Ranking;
  /** Was anything told of the fault itself? */
  told: boolean;
  shown: Ranked[];
  /** Ids of causes in the order in which to check them. */
  order: string[];
  question: Ask | null;
  correction: CorrectionAdvice | null;
  /** Id of the likeliest cause; null when nothing explains the signs. */
  first: string | null;
  experience: Experience | null;
}

type BenchAnswer = (ask: Ask, answer: string) => void;

interface TinwrightBenchRecords {
  causes: Record<string, CauseData>;
  data: BenchData;
  defectOf(value: string, direction: string): string | null;
  defects: Record<string, DefectData>;
  knownDefects(value: any): string[];
  leadsSomewhere(value: string, direction: string): boolean;
  measured: Record<string, Record<string, string>>;
}

interface TinwrightBenchForm extends Pick<TinwrightElements, "button"> {
  buttons(...each: (Node | null)[]): HTMLElement;
  keeper(key: string): { read(): Record<string, any>; write(state: object): void; clear(): void };
  rebuild(host: HTMLElement, build: () => void, goTo?: string): void;
  select(
    label: string,
    id: string,
    choices: [string, string][],
    value: string,
    change: (value: string) => void,
  ): HTMLElement;
  tick(
    defect: DefectData,
    checked: boolean,
    change: (checked: boolean) => void,
    more?: Record<string, any>,
  ): HTMLElement;
}

interface TinwrightBenchAdvising {
  /** `outBy` is how far each dimension is out, in inches. */
  adviseOnSigns(signs: Signs, sealer: SealerData | null, outBy?: Record<string, number>): BenchAdvice;
  signsFrom(
    seen: string[],
    directions: Record<string, string>,
  ): { defects: string[]; directions: Record<string, string> };
}

interface TinwrightBenchWording {
  say(id: string): string;
  sayAnswer(ask: { kind: string; key: string }, word: string): string;
  sayApart(apart: Distinction): string;
  sayDirection(dimension: string, direction: string): string;
  sayNowhere(value: string, direction: string): string;
  sayQuestion(ask: { kind: string; key: string }): string;
  saySign(sign: Sign): string;
  sayTimes(experience: Experience | null, cause: string): string;
}

interface TinwrightBenchSaying {
  none(told?: boolean): HTMLElement;
  /** `answer` is called when a question is answered by a tap. */
  sayAdvice(advice: BenchAdvice, sealer: SealerData | null, answer?: BenchAnswer | null): Node[];
  sayCan(seen: string[]): Node[];
  toFails(): HTMLElement | null;
}

interface TinwrightBench
  extends
    Pick<TinwrightElements, "make">,
    TinwrightBenchRecords,
    TinwrightBenchForm,
    TinwrightBenchAdvising,
    TinwrightBenchWording,
    TinwrightBenchSaying {}

/** What was typed into the seam check. */
interface SeamState {
  specification: string;
  sealer: string;
  method: string;
  unit: string;
  endPlate: string;
  bodyPlate: string;
  tightness: string;
  /** The boxes of each point by dimension. */
  points: Record<string, string>[];
  seen: string[];
}

/** The seam check as its form knows it. */
interface SeamPage extends HTMLElement {
  /** Is there a box that cannot be read? */
  unread: boolean;
  change(): void;
  renew(goTo?: string): void;
}

/** What was told to Find the cause. */
interface FindState {
  seen: string[];
  absent: string[];
  directions: Record<string, string>;
  extent: string;
  repeats: string;
  lastChange: string;
  sealer: string;
  none: boolean;
}

interface TinwrightSlip {
  seamSlip(
    state: SeamState,
    measured: string[],
    spec: SpecificationData | null,
    sealer: SealerData | null,
  ): HTMLElement;
  /** Facts without a text are left out. */
  slip(facts: [string, string][], table?: Node | null): HTMLElement;
}

interface TinwrightPicture {
  beside(seam: SeamReadings, verdict: SeamVerdict): HTMLElement;
  /** The seam to draw, and what of it was not measured. */
  worstSeam(seam: SeamReadings, verdict: SeamVerdict): { dims: SectionDimensions; guessed: string[] };
}

interface TinwrightSeamEntry {
  MEASURED: string[];
  formOf(state: SeamState, page: SeamPage): HTMLElement;
  readSeam(state: SeamState, page: SeamPage, spec: SpecificationData | null): SeamReadings;
  sound(kept: any): SeamState;
}

interface TinwrightSeamResult {
  names(verdict: SeamVerdict, out: [string, string][]): HTMLElement[];
  parts(verdict: SeamVerdict): HTMLElement;
  sayAction(outcome: string): string;
  sayOutcome(outcome: string): string;
  verdictBox(verdict: SeamVerdict, spec: SpecificationData | null, seen: string[]): HTMLElement;
}

declare var tinwrightBench: TinwrightBench;
declare var tinwrightBenchAdvising: TinwrightBenchAdvising;
declare var tinwrightBenchForm: TinwrightBenchForm;
declare var tinwrightBenchRecords: TinwrightBenchRecords;
declare var tinwrightBenchSaying: TinwrightBenchSaying;
declare var tinwrightBenchWording: TinwrightBenchWording;
declare var tinwrightData: BenchData;
declare var tinwrightDrawing: TinwrightDrawing;
declare var tinwrightPicture: TinwrightPicture;
declare var tinwrightSeamEntry: TinwrightSeamEntry;
declare var tinwrightSeamLayers: TinwrightSeamLayers;
declare var tinwrightSeamResult: TinwrightSeamResult;
declare var tinwrightSlip: TinwrightSlip;

// ---- quiz ----

/** What an answer earned of its point: numerator and denominator. */
type QuizShare = [number, number];
/** Places of the choices, a number as written, or null for no answer. */
type QuizAnswer = number[] | string | null;

/** What scoring needs of a question. */
interface QuizScored {
  asks: string;
  critical: boolean;
  choices: any[];
  key: number[];
  lefts: string[];
  low?: string;
  high?: string;
}

/** A practice question as the page's data has it. */
interface QuizItem extends QuizScored {
  id: string;
  topic: string;
  text: string;
  choices: { text: string; why: string }[];
  pairWhys: string[];
  slips: [string, string][];
  why: string;
  teaches: { title: string; page: string }[];
  answer?: string;
  unit?: string;
  wrongNumbers?: [string, string][];
  places?: [string, number, number][];
  figure?: { address: string; said: string; box: [number, number, number, number] };
  table?: string[][];
}

/** A question of the round, with what was answered. */
interface QuizAsked {
  item: QuizItem;
  /** Places of the choices in the order in which they are shown. */
  order: number[];
  answer: QuizAnswer;
  typed: string;
  /** Null until it is scored. */
  share: QuizShare | null;
}

/** A question in full, or by its id alone until it is fetched. */
type QuizKnown = QuizItem | { id: string; topic: string };

interface QuizTopic<Item> {
  topic: string;
  title: string;
  page: string;
  office: string;
  passPercent: number;
  /** How each kind of question is scored, in words. */
  rules: Record<string, string>;
  items: Item[];
}

interface QuizSeen {
  last: "right" | "partly" | "missed";
  right: number;
  times: number;
  day: string;
}

interface QuizRound {
  topic: string;
  day: string;
  questions: number;
  percent: number;
  passed: boolean;
}

interface QuizProgress {
  items: Map<string, QuizSeen>;
  rounds: QuizRound[];
}

interface TinwrightScoring {
  AnswerError: new (message?: string) => Error;
  compare(a: string, b: string): number;
  letterOf(place: number): string;
  passes(shares: QuizShare[], percent: number): boolean;
  percentOf(shares: QuizShare[]): number;
  points(shares: QuizShare[]): string;
  readAnswer(question: QuizScored, typed: string): QuizAnswer;
  score(question: QuizScored, answer: QuizAnswer): QuizShare;
}

interface TinwrightPractice {
  KEY: string;
  chances(seed: number): () => number;
  choose<Item extends { id: string }>(items: Item[], size: number, first: string, chance: () => number): Item[];
  erase(): void;
  exported(): string;
  note(id: string, share: QuizShare): boolean;
  noteRound(topic: string, questions: number, percent: number, passed: boolean): boolean;
  read(): QuizProgress;
  shuffled<Thing>(things: Thing[], chance: () => number): Thing[];
  sound(value: any): QuizProgress;
  take(text: string): number;
}

interface TinwrightQuizStore {
  have(items: { topic: string }[]): Promise<void>;
  missing(items: { topic: string }[]): string[];
  topics(own: string): QuizTopic<QuizKnown>[];
}

interface TinwrightAsking {
  feedback(asked: QuizAsked, rule: string, heading?: string): HTMLElement;
  fieldset(asked: QuizAsked, name: string, tell: (said: string) => void, changed: () => void): HTMLElement;
  problemOf(asked: QuizAsked): string;
  showProblem(host: ParentNode, asked: QuizAsked, problem: string): void;
  wordOf(asked: QuizAsked): string;
}

/** How a round is asked. */
interface QuizSettings {
  size: string;
  single: boolean;
  each: boolean;
}

/** A finished round. */
interface QuizResult {
  round: QuizAsked[];
  topics: QuizTopic<QuizKnown>[];
  /** The topic, or `mixed`. */
  topic: string;
  passed: boolean;
  percent: number;
  percentNeeded: number;
  /** False when the device kept nothing. */
  kept: boolean;
}

/** Makes what answers a question: the question, whether it is scored, what to say aloud, and what to do on a change. */
type QuizControl = (
  asked: QuizAsked,
  locked: boolean,
  tell: (said: string) => void,
  changed: () => void,
) => HTMLElement;

interface TinwrightQuizResult {
  sayResult(result: QuizResult, again: () => void): (Node | null)[];
  verdictOf(result: QuizResult): string;
}

interface TinwrightQuizSetUp {
  setUpForm(items: QuizKnown[], first: QuizKnown | null, settings: QuizSettings, start: () => void): HTMLElement;
}

declare var tinwrightQuizControls: Record<string, QuizControl>;
declare var tinwrightQuizUnits: { unitInWords(unit?: string): string };
declare var tinwrightQuizFeedback: Pick<TinwrightAsking, "feedback" | "wordOf">;
declare var tinwrightQuizResult: TinwrightQuizResult;
declare var tinwrightQuizSetUp: TinwrightQuizSetUp;
declare var tinwrightQuizSteps: { steps: QuizControl };
declare var tinwrightScoring: TinwrightScoring;
declare var tinwrightPractice: TinwrightPractice;
declare var tinwrightQuizStore: TinwrightQuizStore;
declare var tinwrightAsking: TinwrightAsking;
/** Topics whose questions are here in full. */
declare var tinwrightQuizData: QuizTopic<QuizItem>[] | undefined;
/** Every topic, with the ids of its questions. */
declare var tinwrightQuizIndex: QuizTopic<string>[] | undefined;

// ---- certificate ----

interface CertificateKey {
  publicKeyMultibase: string;
  controller: string;
  id: string;
  from: string;
  until?: string;
  revoked?: string;
}

interface CertificateIssuer {
  name: string;
  verificationMethod: CertificateKey[];
}

interface CertificateRevocations {
  made: string;
  /** Day of revoking, by the certificate's id. */
  revoked: Map<string, string>;
}

interface CertificateShown {
  id: string;
  name: string;
  shown: string[];
  issuedOn: string;
  validUntil: string;
  office: string;
  limits: string;
}

interface CertificateVerdict {
  outcome: string;
  reason: string;
  certificate: CertificateShown | null;
}

interface TinwrightCertificateEncoding {
  /** Nothing can be told in this browser. */
  CannotCheck: new (message: string) => Error;
  /** What is wrong with a file, in words for the reader. */
  Unreadable: new (message: string) => Error;
  canonical(value: any): string;
  decodeText(bytes: Uint8Array): string;
  fromBase58(text: string): Uint8Array | null;
  fromBase64url(text: string): Uint8Array;
  fromMultibase(text: any): Uint8Array | null;
  isObject(value: any): boolean;
  parseJson(text: string): any;
}

/** Where another object of a PDF file is named. */
interface PdfRef {
  number: number;
  generation: number;
}

interface TinwrightPdfSyntax {
  Letters: new (letters: string) => { letters: string };
  Ref: new (number: number, generation: number) => PdfRef;
  damaged(): Error;
  matched(sticky: RegExp, text: string, at: number): RegExpExecArray | null;
  readValue(text: string, at: number): { value: any; end: number };
}

interface TinwrightPdfStreams {
  bytesOf(letters: string): Uint8Array;
  inflated(raw: string, limit: number): Promise<string>;
  lettersOf(bytes: Uint8Array): string;
  tooLarge(): Error;
  unpredicted(content: string, parameters: any): string;
  wholeNumbers(value: any): number[];
}

interface TinwrightCertificateProof {
  inUse(key: CertificateKey, signedOn: any): boolean;
  isDay(text: any): boolean;
  keyOf(issuer: CertificateIssuer, did: any): CertificateKey | undefined;
  proofHolds(secured: any, key: CertificateKey): Promise<boolean>;
  readRevocations(list: any, issuer: CertificateIssuer): Promise<CertificateRevocations | null>;
  readToken(token: string): { header: any; claims: any };
  signatureHolds(signature: Uint8Array | null, message: Uint8Array, rawKey: Uint8Array): Promise<boolean>;
  tokenHolds(token: string, key: CertificateKey): Promise<boolean>;
}

interface TinwrightCertificate {
  /** Bytes of the largest file that is looked at. */
  LARGEST: number;
  canonical(value: any): string;
  fromBase58(text: string): Uint8Array | null;
  fromBase64url(text: string): Uint8Array;
  fromMultibase(text: any): Uint8Array | null;
  readRevocations(list: any, issuer: CertificateIssuer): Promise<CertificateRevocations | null>;
  sayDay(day: string): string;
  signatureHolds(signature: Uint8Array | null, message: Uint8Array, rawKey: Uint8Array): Promise<boolean>;
  verify(
    bytes: Uint8Array,
    published: { issuer: CertificateIssuer; revoked: any },
    today: string,
  ): Promise<CertificateVerdict>;
}

declare var tinwrightCertificate: TinwrightCertificate;
declare var tinwrightCertificateEncoding: TinwrightCertificateEncoding;
declare var tinwrightCertificatePdf: { attachedTo(bytes: Uint8Array): Promise<Uint8Array> };
declare var tinwrightCertificateProof: TinwrightCertificateProof;
declare var tinwrightPdfStreams: TinwrightPdfStreams;
declare var tinwrightPdfSyntax: TinwrightPdfSyntax;
/** The office as it publishes itself, and its list of revoked certificates. */
declare var tinwrightCertificates: { issuer: CertificateIssuer; revoked: any } | undefined;

// ---- benchlog ----

interface LogReading {
  dimension: string;
  point: string;
  value: number;
}

/** One thing that happened, with the names of the log's file. */
interface LogEvent {
  id: string;
  at: string;
  kind: string;
  revision?: number;
  struck?: boolean;
  by?: string;
  can_number?: number;
  first?: number;
  last?: number;
  result?: string;
  can?: string;
  lid_lot?: string;
  defect?: string;
  cause?: string;
  adjuster?: string;
  direction?: string;
  turns?: string;
  method?: string;
  specification?: string;
  readings?: LogReading[];
  torn_down?: boolean;
  reason?: string;
  note?: string;
  run?: string;
  on?: string;
  after?: string;
}

/** Entries of an event that is still being written. */
type LogEntries = Partial<LogEvent>;

/** What is known of a session beside its events. */
interface LogHead {
  date: string;
  kitchen: string;
  sealer: string;
  can?: string;
  lid_lot?: string;
  supervisor?: string;
  product?: string;
}

interface LogSession extends LogHead {
  events: LogEvent[];
}

/** First and last can, both meant; a can of a later run of the counter is `ONE_RUN` higher for each. */
type CanRange = [number, number];
/** What to do with a can that has a defect, by the defect's id. */
type LogDispositions = Record<string, string>;
/** How far a check must reach to find a defect, by the defect's id. */
type LogReaches = Record<string, number>;

interface TinwrightBenchLog {
  CHANGES: string[];
  CHECKS: string[];
  LOOKED_AT: number;
  MEASURED: number;
  ONE_RUN: number;
  TORN_DOWN: number;
  canName(can: number): string;
  cansShown(event: LogEvent): number;
  checkedCan(event: LogEvent): number | null;
  compareText(one: string, other: string): number;
  count(ranges: CanRange[]): number;
  joined(...parts: CanRange[][]): CanRange[];
  outcomeOf(event: LogEvent, dispositions: LogDispositions): "good" | "failed" | "";
  reachNeeded(event: LogEvent, reaches: LogReaches): number;
  reachOf(event: LogEvent): number;
  runLetter(run: number): string;
  runNamed(letters: string): number;
  runOf(can: number): number;
  seconds(at: string): number;
  shared(one: CanRange[], other: CanRange[]): CanRange[];
  withSeconds(at: string): string;
  without(ranges: CanRange[], taken: CanRange[]): CanRange[];
  written(id: string): number;
}

/** As `benchlog.writing.Line`. */
interface LogLine {
  event: LogEvent;
  run: number;
  beginsRun: boolean;
  cans: CanRange | null;
  can: number | null;
  shown: number;
  count: number;
  before: number;
  knows: Map<string, number>;
}

interface TinwrightBenchLogWriting {
  clockWentBack(events: LogEvent[]): [LogEvent, LogEvent][];
  counted(events: LogEvent[]): LogEvent[];
  counterOf(events: LogEvent[]): number;
  counterWentBack(events: LogEvent[]): LogLine[];
  inOrder(events: LogEvent[]): LogEvent[];
  isAfter(line: LogLine, other: LogLine): boolean;
  lastWritten(events: LogEvent[], but: string): string;
  linesOf(events: LogEvent[]): LogLine[];
  readLines(events: LogEvent[]): LogLine[];
  runOfEvent(event: LogEvent): number;
  sealedCans(lines: LogLine[]): CanRange[];
  sourceOf(id: string): string;
}

interface LogPolicy {
  testCans: number;
  recheckCans: number;
  recheckMinutes: number;
  teardownCans?: number;
  teardownMinutes?: number;
  endCheck?: number;
}

interface LogDue {
  check: string;
  reasons: string[];
  cansLeft: number | null;
  minutesLeft: number | null;
  testCans: number;
  canNumber: number | null;
  askedBy: LogEvent | null;
}

/** A check that is asked for. */
interface LogAsked {
  check: string;
  reasons: string[];
  after: number;
  allowed: number;
  canNumber: number | null;
  askedBy: LogEvent | null;
  /** When the first can too many was sealed. */
  overrun?: string;
}

interface LogMissed {
  check: string;
  reasons: string[];
  at: string;
  cans: CanRange;
  askedBy: LogEvent | null;
  made: LogEvent | null;
  times: number;
}

/** Checks that are due after so many cans or minutes, as `benchlog.policy._Interval`. */
interface LogInterval {
  check: string;
  reach: number;
  names: [string, string];
  cans: number;
  minutes: number;
  checked: number;
  checkedAt: number | null;
  sealed: [string, number];
}

/** The log of one session as far as it was read; cans are counted through all runs of the counter. */
interface LogBench {
  asked: LogAsked[];
  clock: number;
  /** When the day was closed. */
  closed: string;
  counter: number;
  /** The last can that a check found good which reaches as far as the one at the end. */
  goodAtTheEnd: number;
  intervals: LogInterval[];
  look: LogInterval;
  missed: LogMissed[];
  pausedAt: number | null;
  policy: LogPolicy;
  /** How many good test cans there are in a row. */
  row: number;
  /** Seconds by which the clock went back so far. */
  setBack: number;
  can(place: number): number;
}

interface TinwrightBenchLogLate {
  cansAtTheEnd(bench: LogBench): CanRange | null;
  late(bench: LogBench, asked: LogAsked, made: LogEvent | null): LogMissed[];
  lateEnd(bench: LogBench, close: LogEvent): LogMissed[];
  lateInterval(bench: LogBench, interval: LogInterval, worked: number, at: string, made: LogEvent | null): LogMissed[];
  missedSoFar(bench: LogBench): LogMissed[];
  workedOf(interval: LogInterval, until: number): number;
}

interface TinwrightBenchLogDue {
  cansBeforeEndCheck(events: LogEvent[], policy: LogPolicy, dispositions?: LogDispositions): CanRange | null;
  dueAt(bench: LogBench, at: string): LogDue[];
  isNow(due: LogDue): boolean;
  missedChecks(events: LogEvent[], policy: LogPolicy, dispositions?: LogDispositions): LogMissed[];
  whatIsDue(events: LogEvent[], policy: LogPolicy, now: string, dispositions?: LogDispositions): LogDue[];
}

interface LogHold {
  event: LogEvent;
  cans: CanRange[];
  heated: CanRange[];
  since: LogEvent | null;
  until: LogEvent | null;
  lookedAt: LogEvent[];
  /** How far a check must reach to find the fault; 0 for an order. */
  reach: number;
}

interface LogHeld {
  notHeated: CanRange[];
  heated: CanRange[];
}

interface LogUnchecked {
  change: LogEvent;
  cans: CanRange[];
  since: LogEvent | null;
}

interface LogWalk {
  bad: CanRange[];
  discarded: CanRange[];
  heated: CanRange[];
  holds(): LogHold[];
  /** Failures after which the sealer is not known to be good again. */
  open(): LogHold[];
  stillHeld(): LogHeld;
  unchecked(): LogUnchecked[];
}

interface TinwrightBenchLogHolding {
  cansToHold(events: LogEvent[], dispositions?: LogDispositions, reaches?: LogReaches): LogHold[];
  heldFromDayBefore(
    dayBefore: LogEvent[],
    day: LogEvent[],
    dispositions?: LogDispositions,
    reaches?: LogReaches,
  ): LogHold | null;
  stillHeld(events: LogEvent[], dispositions?: LogDispositions, reaches?: LogReaches): LogHeld;
  uncheckedBeforeChange(events: LogEvent[], dispositions?: LogDispositions, reaches?: LogReaches): LogUnchecked[];
  walk(events: LogEvent[], dispositions?: LogDispositions, reaches?: LogReaches): LogWalk;
}

interface ChartLimits {
  center: number;
  lower: number;
  upper: number;
  rangeCenter: number;
  rangeUpper: number;
}

interface LogPoint {
  session: LogSession;
  event: LogEvent;
  value: number;
  low: number;
  high: number;
  movingRange: number | null;
  signals: string[];
}

interface LogStretch {
  points: LogPoint[];
  limits: ChartLimits | null;
}

interface LogMark {
  before: number;
  session: LogSession;
  event: LogEvent;
}

interface LogChart {
  sealer: string;
  can: string;
  dimension: string;
  stretches: LogStretch[];
  marks: LogMark[];
}

interface TinwrightBenchLogCharts {
  FEWEST_CANS: number;
  RUN: number;
  chartsOf(sessions: LogSession[]): LogChart[];
  limitsOf(values: number[]): ChartLimits;
}

/** A kind of event: its name, what must be written of it, and what may be. */
interface LogKind {
  label: string;
  needs: string[];
  may: string[];
}

interface TinwrightBenchLogSound {
  isObject(value: any): value is Record<string, any>;
  isSame(one: LogEvent, other: LogEvent): boolean;
  /** Undefined when it is no JSON. */
  parsed(text: string): any;
  problemsOf(entries: LogEntries, kind: LogKind, results: Record<string, string[]>): string[];
  soundEvent(value: any, kinds: Record<string, LogKind>, results: Record<string, string[]>): LogEvent | null;
  soundHead(value: any): LogSession | null;
}

interface TinwrightBenchLogMerging {
  latest(lines: LogEvent[]): { events: LogEvent[]; disputed: Set<string> };
  moreCautious(one: LogEvent, other: LogEvent): LogEvent;
}

/** A line, and the session it belongs to. */
interface CopiedLine {
  key: string;
  line: string;
}

/** The second copy of every line. */
interface TinwrightBenchLogCopy {
  add(key: string, lines: string[]): Promise<void>;
  read(): Promise<CopiedLine[]>;
}

/** A session with what this device keeps of it. */
interface KeptSession {
  key: string;
  session: LogSession;
  lines: LogEvent[];
  /** Lines that cannot be read; they are left where they are. */
  unread: string[];
  /** Lines that the device did not take yet. */
  pending: string[];
  /** Ids of events that two phones tell differently. */
  disputed: Set<string>;
}

/** What the file of one day is made of. */
interface LogFile {
  format: string;
  version: number;
  device: string;
  sessions: LogSession[];
}

/** What came of the file of another phone. */
interface LogImported {
  sessions: number;
  added: number;
  disputed: number;
  refused: number;
}

interface KeptLog {
  device: string;
  kinds: Record<string, LogKind>;
  /** Texts under keys of ours that are no session at all. */
  lost: { key: string; text: string }[];
  /** Why the last thing written is not kept; empty when all is. */
  notKept: "" | "full" | "forbidden";
  /** How many writes are on their way to the disk. */
  onTheWay: number;
  results: Record<string, string[]>;
  sessions: KeptSession[];
  /** Called when `onTheWay` changes. */
  tellOnTheWay: () => void;
  append(kept: KeptSession, values: any[]): void;
  keepAll(): void;
  read(): void;
  /** How many lines came back from the second copy. */
  recover(): Promise<number>;
  /** Null when what is left is no event. */
  revise(kept: KeptSession, changed: LogEvent): LogEvent | null;
  sessionOf(head: LogHead): KeptSession | undefined;
  start(head: LogHead): KeptSession;
  /** Null when it is incomplete. */
  write(kept: KeptSession, entries: LogEntries): LogEvent | null;
}

interface TinwrightBenchLogStore {
  KEY: string;
  Log: new (kinds: Record<string, LogKind>, results: Record<string, string[]>, copy: TinwrightBenchLogCopy) => KeptLog;
}

declare var tinwrightBenchLog: TinwrightBenchLog;
declare var tinwrightBenchLogWriting: TinwrightBenchLogWriting;
declare var tinwrightBenchLogLate: TinwrightBenchLogLate;
declare var tinwrightBenchLogDue: TinwrightBenchLogDue;
declare var tinwrightBenchLogBench: {
  readBench(events: LogEvent[], policy: LogPolicy, dispositions: LogDispositions): LogBench;
};
declare var tinwrightBenchLogHolding: TinwrightBenchLogHolding;
declare var tinwrightBenchLogCharts: TinwrightBenchLogCharts;
declare var tinwrightBenchLogSound: TinwrightBenchLogSound;
declare var tinwrightBenchLogMerging: TinwrightBenchLogMerging;
declare var tinwrightBenchLogCopy: TinwrightBenchLogCopy;
declare var tinwrightBenchLogExchange: {
  exported(log: KeptLog, date: string): LogFile;
  importFile(log: KeptLog, text: string): LogImported | null;
};
declare var tinwrightBenchLogStore: TinwrightBenchLogStore;

interface LogCan {
  id: string;
  title: string;
}

interface LogKitchen {
  name: string;
  sealers: string[];
}

/** What the page gives to the scripts of the bench log, beside the records. */
interface TinwrightBenchLogData {
  /** What is said of an adjustment, by what was adjusted and which way. */
  adjusted: Record<string, Record<string, string>>;
  adjusters: string[];
  cans: LogCan[];
  directions: string[];
  dispositions: LogDispositions;
  /** Address of what to do when a check fails; empty when there is no such page. */
  fails: string;
  hold: { heated: string[]; notHeated: string[] };
  kinds: Record<string, LogKind>;
  kitchens: LogKitchen[];
  policy: LogPolicy;
  reaches: LogReaches;
  reasons: Record<string, string>;
  results: Record<string, string[]>;
  seamCheck: string;
  /** Addresses of set-up sheets, by sealer and can. */
  setUps: Record<string, Record<string, string>>;
}

interface TinwrightBenchLogWords {
  /** What a result is called. */
  RESULTS: Record<string, string>;
  canTitle(id: string): string;
  cans(ranges: CanRange[]): string;
  dueAloud(dues: LogDue[]): string;
  dueText(due: LogDue): string;
  dueWhen(due: LogDue): string;
  dueWhy(due: LogDue): string;
  endText(range: CanRange | null): string;
  eventText(event: LogEvent): string;
  faultText(hold: LogHold): string;
  many(number: number, one: string, more?: string): string;
  missedText(missed: LogMissed): string;
  rangeOf(event: LogEvent): CanRange[];
  sealerTitle(id: string): string;
  upper(text: string): string;
}

/** What was typed into the boxes of a measured check. */
interface LogTyped {
  specification: string;
  method: string;
  unit: string;
  tightness: string;
  endPlate: string;
  bodyPlate: string;
  points: Record<string, string>[];
}

interface TinwrightBenchLogTyped {
  MEASURED: string[];
  fromEvent(event: LogEvent): LogTyped;
  /** What was typed last into Check a seam; null when nothing was. */
  fromSeamCheck(): LogTyped | null;
  soundTyped(kept: any): LogTyped;
}

interface LogMeasured {
  element: HTMLElement;
  outcome: string;
  readings: LogReading[];
  typed: LogTyped;
}

/** A form that takes the place of the keys, and its heading. */
interface LogForm {
  element: HTMLElement;
  head: HTMLElement;
}

/** What a form is for. */
interface PanelTask {
  kind: string;
  /** What is corrected; null for something new. */
  event: LogEvent | null;
  entries: LogEntries & { sealer?: string };
  /** The can that is sealed. */
  can: string;
  isTimed: boolean;
  typed: LogTyped | null;
  runs: [string, string][];
  note: string;
  /** What is missing, in words; empty when it is written. */
  write(entries: LogEntries): string;
  strike(): void;
  close(): void;
}

interface FieldTask {
  task: PanelTask;
  /** What the form holds so far. */
  entries: LogEntries;
  isNeeded: boolean;
  value: any;
  set(value: any): void;
}

interface TinwrightBenchLogFields {
  LABELS: Record<string, string>;
  /** Entries that are numbers of cans. */
  NUMBERS: string[];
  fieldOf(entry: string, field: FieldTask): HTMLElement;
  timeField(entries: LogEntries): HTMLElement;
}

interface StartTask {
  head: Partial<LogHead>;
  isNew: boolean;
  back: (() => void) | null;
  start(head: LogHead): void;
}

interface TinwrightBenchLogStart {
  StartForm: new (task: StartTask) => LogForm;
  cansOn(sealer: string): [string, string][];
  clock(): string;
}

/** The cans still held, and why. */
interface LogStop {
  held: LogHeld;
  /** Failures after which the sealer is not known to be good again. */
  failures: LogHold[];
  /** Cans of the day before. */
  earlier: LogHold | null;
  before: LogSession | null;
  bad: CanRange[];
  holds: LogHold[];
}

/** What follows from a session now. */
interface LogState {
  bench: LogBench;
  held: LogStop | null;
  missed: LogMissed[];
  dues: LogDue[];
}

interface LogStates {
  of(kept: KeptSession): LogState;
  /** The sessions of one day. */
  on(date: string): KeptSession[];
}

/** What came of writing something down. */
interface LogWritten {
  event: LogEvent | null;
  /** What is missing, in words. */
  missing: string;
}

/** What stands below the log can do. */
interface LogDays {
  log: KeptLog;
  kept: KeptSession | null;
  /** Says whether this browser keeps what is written for good. */
  lasting: HTMLElement;
  begin(): void;
  choose(key: string): void;
  imported(): void;
  print(): void;
  save(): void;
  say(text: string): void;
}

/** The page of the bench log, to its parts. */
interface LogDesk {
  log: KeptLog;
  states: LogStates;
  ask(kind: string): void;
  begin(isCorrected?: boolean): void;
  choose(key: string): void;
  correct(event: LogEvent): void;
  isDone(said: string, event: LogEvent): void;
  isPaused(): boolean;
  kept(): KeptSession | null;
  say(text: string): void;
  seal(number: number): void;
  show(): void;
  showForm(form: LogForm): void;
  showKeys(isBack?: boolean): void;
  step(): number;
  strike(event: LogEvent): void;
  /** What is missing, in words; empty when it is written. */
  write(entries: LogEntries): string;
}

interface LogTabs {
  element: HTMLElement;
  focus(): void;
  hasFocus(): boolean;
  show(kept: KeptSession): void;
}

interface LogPad {
  element: HTMLElement;
  isStopped: boolean;
  step: number;
  tabs: LogTabs;
  focus(): void;
  show(isStopped: boolean, isLate: boolean): void;
  showForm(form: LogForm, isMoved: boolean): void;
  showKeys(): void;
  showLast(event: LogEvent | null): void;
}

interface LogNow {
  count: HTMLElement;
  due: HTMLElement;
  stop: HTMLElement;
  /** Whether there is a STOP to lead the keyboard to. */
  focusStop(): boolean;
  news(date: string): string;
  show(kept: KeptSession | null): void;
}

interface LogRest {
  element: HTMLElement;
  isWhole: boolean;
  show(): void;
  showFiles(): void;
  showSoon(): void;
}

declare var tinwrightBenchLogData: TinwrightBenchLogData;
declare var tinwrightBenchLogAlarm: {
  Alarm: new () => { element: HTMLElement; show(state: LogState | null): void };
};
declare var tinwrightBenchLogBeginning: {
  canOf(session: LogSession): string;
  entriesFor(kind: string, session: LogSession, step: number): LogEntries & { sealer: string };
  newRun(events: LogEvent[]): LogEntries;
  nextCans(events: LogEvent[], number: number): LogEntries;
  runChoices(kind: string, events: LogEvent[]): [string, string][];
};
declare var tinwrightBenchLogDays: {
  daysSection(days: LogDays): { parts: HTMLElement[]; tell: () => void };
};
declare var tinwrightBenchLogDesk: {
  atOnce(kind: string, kept: KeptSession, isPaused: boolean): LogEntries | null;
  correction(desk: LogDesk, kept: KeptSession, event: LogEvent): LogForm;
  newForm(desk: LogDesk, kept: KeptSession, kind: string, typed: LogTyped | null): LogForm;
  write(log: KeptLog, kept: KeptSession, entries: LogEntries): LogWritten;
};
declare var tinwrightBenchLogDrawing: {
  drawChart(chart: LogChart, specification: { low: number | null; high: number | null }): HTMLElement;
};
declare var tinwrightBenchLogDueCard: { dueCard(dues: LogDue[], bench: LogBench): HTMLElement };
declare var tinwrightBenchLogFields: TinwrightBenchLogFields;
declare var tinwrightBenchLogFile: {
  canShare(): boolean;
  /** Returns the file's name. */
  save(log: KeptLog, date: string): string;
  share(log: KeptLog, date: string): Promise<boolean>;
  textOf(log: KeptLog, date: string): string;
  /** How many lines of a day are in no file yet. */
  unsaved(log: KeptLog, date: string): number;
};
declare var tinwrightBenchLogKeys: {
  key(label: string, act: () => void, look?: string, below?: string): HTMLElement;
};
declare var tinwrightBenchLogLasting: {
  Lasting: new () => { element: HTMLElement; ask(): Promise<void>; look(): Promise<void> };
};
declare var tinwrightBenchLogLines: {
  showEvents(
    box: HTMLElement,
    session: LogSession,
    disputed: Set<string>,
    isWhole: boolean,
    open: (event: LogEvent) => void,
    showAll: () => void,
  ): void;
};
declare var tinwrightBenchLogMeasured: {
  Measured: new (typed: LogTyped, can: string, changed: () => void) => LogMeasured;
};
declare var tinwrightBenchLogNow: { Now: new (desk: LogDesk) => LogNow };
declare var tinwrightBenchLogPad: { Pad: new (desk: LogDesk) => LogPad };
declare var tinwrightBenchLogPanel: { Panel: new (task: PanelTask) => LogForm };
declare var tinwrightBenchLogPaper: { printed(log: KeptLog, date: string): HTMLElement };
declare var tinwrightBenchLogRefusal: {
  missingText(entries: LogEntries): string;
  refusalText(events: LogEvent[], entries: LogEntries): string;
};
declare var tinwrightBenchLogRemembered: {
  isStale(part: HTMLElement, sign: string): boolean;
  put(part: HTMLElement, content: HTMLElement | null): void;
  recall(key: string): string;
  remember(key: string, value: string): void;
};
declare var tinwrightBenchLogRest: {
  Rest: new (desk: LogDesk, acts: Pick<LogDays, "begin" | "lasting" | "print" | "save">) => LogRest;
};
declare var tinwrightBenchLogStart: TinwrightBenchLogStart;
declare var tinwrightBenchLogStates: {
  States: new (log: KeptLog) => LogStates;
  isToday(kept: KeptSession): boolean;
};
declare var tinwrightBenchLogStop: {
  alarmText(stop: LogStop | null): string;
  heldOf(session: LogSession, before: LogSession | null): LogStop | null;
  stopCard(stop: LogStop, ask: (kind: string) => void): HTMLElement;
};
declare var tinwrightBenchLogTabs: { Tabs: new (desk: LogDesk) => LogTabs };
declare var tinwrightBenchLogTrouble: {
  troubleCard(
    log: KeptLog,
    kept: KeptSession | null,
    acts: { again: () => void; save: () => void },
  ): HTMLElement | null;
};
declare var tinwrightBenchLogTyped: TinwrightBenchLogTyped;
declare var tinwrightBenchLogUnchecked: {
  missedCard(missed: LogMissed[]): HTMLElement | null;
  uncheckedCard(session: LogSession): HTMLElement | null;
  wentBackCard(session: LogSession): HTMLElement | null;
};
declare var tinwrightBenchLogWords: TinwrightBenchLogWords;
