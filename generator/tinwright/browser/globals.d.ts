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

interface TinwrightCertificate {
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
/** The office as it publishes itself, and its list of revoked certificates. */
declare var tinwrightCertificates: { issuer: CertificateIssuer; revoked: any } | undefined;
