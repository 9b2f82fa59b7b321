import { type PlannedCoat, withGunOn } from '../job/job.ts';
import { leftBehind_mL } from '../plan/batches.ts';
import { burstFrom, emptyCup, filledBy, usedFrom } from '../plan/cup-count.ts';
import { burst_mL } from '../records/bursts.ts';
import { isTimed } from '../records/cup-timed.ts';
import type { RecordOf } from '../records/of-type.ts';
import { noPulls, pull } from '../trade/pulls.ts';
import { withReading } from './air-readings.ts';
import { type BatchBook, type Book, type FaceBook, gunUnset } from './book.ts';
import { atMost_s, type Instant, instantAfter, isLater, sameClocks, shownBy } from './instant.ts';
import { isUnsettled } from './passed.ts';
import { canTaken, hasPot, levelRead } from './pours.ts';
import type { DayRecord, EventOf } from './records.ts';
import { secondOf } from './second-features.ts';
import { shareOn, strokesOf } from './strokes.ts';
import { takes } from './takes.ts';
import { doubtsWrist } from './wrist.ts';

/** Records entered into the book, one by one. */

/** Paint that a whole coat takes, mL; one beyond the plan repeats the last. */
function volumeOf({ opened }: Book, id: string, count: number): number {
	const face = opened.sheet.faces.find(one => one.id === id);
	const coat = face?.coats[count - 1] ?? face?.coats.at(-1);
	return coat ? takes(opened, coat).volume_mL : 0;
}

function changeFace(book: Book, id: string, change: (face: FaceBook) => Partial<FaceBook>): Book {
	const face = book.faces.get(id);
	if (!face) return book;
	return { ...book, faces: new Map(book.faces).set(id, { ...face, ...change(face) }) };
}

function changeBatch(book: Book, letter: string, change: (batch: BatchBook) => Partial<BatchBook>): Book {
	const batch = book.batches.get(letter);
	if (!batch) return book;
	return { ...book, batches: new Map(book.batches).set(letter, { ...batch, ...change(batch) }) };
}

/**
 * A cup that was not the one it was taken for was filled from the pot of the letter on it, as far as is known; what was
 * counted in it is where it was said to be. What nobody told of is not counted.
 */
function potsAfter(book: Book, { batch, kept }: EventOf<'cup.emptied'>): Book {
	const less = (pot_mL: number | null) => pot_mL && Math.max(0, pot_mL - book.cupSince.loaded_mL);
	const taken = batch ? changeBatch(book, batch, ({ pot_mL }) => ({ pot_mL: less(pot_mL) })) : book;
	return kept ? changeBatch(taken, kept, ({ pot_mL }) => ({ pot_mL: (pot_mL ?? 0) + book.cup_mL })) : taken;
}

/** The gun that a check is of; of another than the last one nothing is known. */
function inHand(
	book: Book,
	{ size, face: id, coat }: EventOf<'check.began'>,
): Partial<Pick<Book, 'gunInHand' | 'gun'>> {
	if (size === null) return {};
	const gunInHand = withGunOn(book.opened.sheet, id, coat).gun.called ?? null;
	return gunInHand === book.gunInHand ? {} : { gunInHand, gun: gunUnset };
}

function partOn(
	{ opened }: Book,
	{ face: id, coat, lastStroke }: EventOf<'face.ended'>,
	before: number,
): number {
	const face = opened.sheet.faces.find(one => one.id === id);
	return shareOn(lastStroke, face ? strokesOf(face, opened.sheet, coat - 1) : 1, before);
}

function endFace(book: Book, record: DayRecord & EventOf<'face.ended'>, at: Instant): Book {
	const { face: id, coat, extent, lastStroke } = record;
	const pass = book.faces.get(id)?.pass ?? null;
	const stopped = pass?.stopped ?? at;
	const began = book.faces.get(id)?.part?.began ?? pass?.began ?? stopped;
	const before = book.faces.get(id)?.part?.share ?? 0;
	const share = extent === 'all' ? 1 : extent === 'part' ? partOn(book, record, before) : before;
	const spent = changeFace(book, id, face => {
		if (extent === 'none') return { pass: null };
		if (extent === 'part')
			return {
				pass: null,
				movedAt: stopped,
				part: { lastStroke, share, began, since: stopped, wetSince: pass?.seen ?? stopped, left: false },
			};
		const ended = record.ended ? sameClocks(pass?.began ?? at, Date.parse(record.ended)) : at;
		return {
			pass: null,
			movedAt: ended,
			part: null,
			prep: [],
			laid: [
				...face.laid,
				{ coat, ended, began, cup: book.checked?.cup ?? [], carried_C: null, carriedLeast_C: null },
			],
			respray: false,
		};
	});
	const respray = extent === 'all' && book.faces.get(id)?.respray === true;
	return {
		...spent,
		resprayed: respray ? [...book.resprayed, id] : book.resprayed,
		...usedFrom(book, (share - before) * volumeOf(book, id, coat)),
		gunWetSince: extent !== 'none' ? (pass?.seen ?? at) : book.gunWetSince,
		stretch: book.stretch.filter(other => other !== id),
	};
}

/** The cup filled from a pot: up to where it is seen to be, or by so much more. A pot that ran out before is read with it. */
function fillCup(book: Book, load: EventOf<'batch.loaded'>): Book {
	const pots = changeBatch(book, load.batch, ({ pot_mL }) => ({
		pot_mL: Math.max(0, (pot_mL ?? 0) - load.volume_mL),
		poured: true,
	}));
	const isAllSeen = ![...pots.batches.values()].some(pot => pot.poured && hasPot(pot));
	return { ...pots, ...filledBy(book, load, isAllSeen) };
}

function noteReading(book: Book, record: DayRecord & EventOf<'reading.taken'>, at: Instant): Book {
	const attempts = record.matched ? 0 : book.attempts + 1;
	const check =
		book.check && record.check === book.check.no
			? { ...book.check, attempts, differed: record.matched ? null : record }
			: book.check;
	const turned =
		!record.matched &&
		(record.feature === 'pattern' || record.feature === 'card') &&
		!doubtsWrist(book.opened.sheet, record);
	const gun =
		record.feature === 'horns' && typeof record.value === 'string'
			? { ...book.gun, horns: record.value }
			: turned
				? { ...book.gun, horns: null }
				: book.gun;
	const tab = record.feature === 'touch' ? tabAfter(book, record, at) : null;
	const lastCard = record.card?.tall ?? book.lastCard;
	const burst = burstFrom(book, burst_mL(withGunOn(book.opened.sheet, record.face, record.coat), record));
	const stray = record.feature === 'last-face' && record.face === null ? null : book.stray;
	const read = { ...book, ...burst, attempts, check, gun, lastCard, stray, ...tab };
	return record.feature === 'set-up' && record.face ? foundSoft(read, record.face, at) : read;
}

/** The tape tab as it was touched: a tacky one may let a coat on, and is not dry. */
const tabAfter = (
	{ tabDry }: Book,
	{ matched, value }: EventOf<'reading.taken'>,
	at: Instant,
): Pick<Book, 'tabWet' | 'tabDry'> => ({
	tabWet: matched ? null : at,
	tabDry: value === 'dry' ? at : matched ? tabDry : null,
});

const foundSoft = (book: Book, face: string, softAt: Instant): Book =>
	changeFace(book, face, ({ aside }) => ({ aside: aside && { ...aside, softAt } }));

const coatsOf = ({ opened }: Book, id: string): readonly PlannedCoat[] =>
	opened.sheet.faces.find(face => face.id === id)?.coats ?? [];

/** A step of a face's own line. Clean, it is back in line for its next coat; with all on, it is asked whether it gets one more. */
function reworked(
	{ aside, laid }: FaceBook,
	{ step }: EventOf<'rework.done'>,
	at: Instant,
	coats: readonly PlannedCoat[],
): Partial<FaceBook> {
	const isWhole = laid.length >= coats.length;
	/** Sanded flat, it is sanded for its next coat where that comes first. */
	const place = coats[laid.length]?.prep[0]?.step === 'sand' ? 0 : null;
	switch (step) {
		case 'respray':
			return {};
		case 'no-coat':
			return { again: false };
		case 'clean':
			return { aside: null, respray: !isWhole, again: isWhole, prep: [{ step: 'sand', place, at }] };
		default:
			return { aside: aside && { ...aside, rework: [...aside.rework, { step, at }] } };
	}
}

/** Seconds by which a record says that the wall clock was set back. */
const setBack_s = (record: DayRecord): number =>
	record.type === 'clock.set' ? Math.max(0, -record.stepMs / 1000) : 0;

/** The earliest that a break can have begun: when the program last ran, by the clocks of the record before. */
const seenLast = (record: EventOf<'break.began'>, at: Instant, ran: Instant): Instant =>
	record.since === undefined ? at : sameClocks(ran, Date.parse(record.since));

/** Gaps of the clocks since so many, settled by what the painter knows of them. */
const settled = (at: Instant, from: number, jump: EventOf<'break.ended'>['jump']): Instant => ({
	...at,
	gaps: at.gaps.map((gap, index) => {
		if (index < from || jump === undefined || jump === 'not-sure' || !isUnsettled(gap)) return gap;
		const ms = jump === 'slept' ? gap.most : gap.least;
		return { least: ms, most: ms };
	}),
});

/** When a record was made; records of one write were made at one look. What is said of a clock that jumped holds from then on. */
function instantOf(book: Book, record: DayRecord): Pick<Book, 'now' | 'ran'> {
	const now = instantAfter(book.now, shownBy(record));
	const isSameLook = now.run === book.now.run && now.mono === book.now.mono && now.wall === book.now.wall;
	const ran = isSameLook ? book.ran : book.now;
	const isBack = record.type === 'break.ended' && book.break;
	return { now: isBack ? settled(now, isBack.gaps, record.jump) : now, ran };
}

/** Where a pull is a pass, or the burst that a check asks for, or flushes the gun once the day is over. */
const pullsBelong: readonly string[] = ['spraying', 'check', 'closed'];

/** The same of a pull that belongs to no pass: paint may be where no record has it. */
function strayed({ stray }: Book, on: boolean, at: Instant, activity: string): Book['stray'] {
	if (on) return pullsBelong.includes(activity) ? stray : { pulled_s: stray?.pulled_s ?? 0, on: at };
	if (!stray?.on) return stray;
	return { pulled_s: stray.pulled_s + (at.wall - stray.on.wall) / 1000, on: null };
}

/** One word of the trigger line, entered to every pass under way. */
const pulled = (book: Book, on: boolean, at: Instant): Book =>
	book.stretch.reduce(
		(sum, id) =>
			changeFace(sum, id, ({ pass }) => ({
				pass: pass && !pass.stopped ? { ...pass, pulls: pull(pass.pulls, on, at.wall) } : pass,
			})),
		book,
	);

/** The book with one more record in it; `from` is the activity that the record found. */
export function enter(book: Book, record: DayRecord, from: string): Book {
	const { now: at, ran } = instantOf(book, record);
	const heard = isKeyed(record) && !putsRight(book, record) ? at : book.heard;
	const heardAs = isKeyed(record) ? record.type : book.heardAs;
	const entered = note({ ...book, ran }, record, at, from);
	return { ...entered, thrown: thrownBy(book, record), last: record, now: at, heard, heardAs };
}

/** Records that the clock or another program makes: nobody need have been there. */
const unkeyed: readonly DayRecord['type'][] = [
	'day.planned',
	'window.moved',
	'window.set',
	'gun.checked',
	'clock.set',
	'trigger.on',
	'trigger.off',
];
const isKeyed = ({ type }: DayRecord): boolean => !unkeyed.includes(type);

/** What a reading showed is put right, and not read again yet: the time between two readings goes on. */
const putsRight = ({ check }: Book, { type }: DayRecord): boolean =>
	type === 'gun.set' && check !== null && check.differed !== null;

function thrownBy(book: Book, record: DayRecord): Book['thrown'] {
	/** This list begins by itself: the pot has not been spoken of yet. */
	if (record.type === 'check.began' && record.list === 'before-spraying') return book.thrown;
	if (record.type === 'window.moved') return book.thrown;
	if (record.type !== 'batch.discarded') return [];
	const batch = book.batches.get(record.batch);
	return batch && hasPot(batch) ? [...book.thrown, record] : book.thrown;
}

/** What leaves times and amounts as they are: the machines, or those who look back, know it. */
type Unentered = Told | Looked;
type Told = 'day.opened' | 'day.closed' | 'clock.set' | 'gun.unknown';
type Looked = 'batch.stepped' | 'batch.stood' | 'film.read' | 'photo.kept' | 'face.judged';

function note(book: Book, record: DayRecord, at: Instant, from: string): Book {
	switch (record.type) {
		case 'day.planned':
			return {
				...book,
				orders: [
					...book.orders.filter(({ stage, coat }) => stage !== record.stage || coat !== record.coat),
					record,
				],
			};
		case 'air.read':
			return {
				...book,
				air: { ...record, at },
				airs: withReading(book.airs, { at, airC: record.airC, surfaceC: record.surfaceC }, book.sprayedIn),
				sprayedIn: false,
				longestHold_s: 0,
			};
		case 'check.began':
			return {
				...book,
				...inHand(book, record),
				checks: record.check,
				secondAsked: secondOf(record.items) ?? book.secondAsked,
				attempts: 0,
				check: {
					no: record.check,
					list: record.list,
					size: record.size,
					items: record.items,
					face: record.face,
					coat: record.coat,
					began: at,
					attempts: 0,
					differed: null,
				},
			};
		case 'item.answered':
			return record.passed ? { ...book, signs: { ...book.signs, [record.item]: record.answer } } : book;
		case 'reading.taken':
			return record.batch === null
				? noteReading(book, record, at)
				: changeBatch(noteReading(book, record, at), record.batch, batch =>
						canTaken(batch, record, book.opened, at),
					);
		case 'gun.set':
			return {
				...book,
				gun: {
					horns: record.horns ?? book.gun.horns,
					fanHeight_mm: record.fanHeight_mm ?? book.gun.fanHeight_mm,
					pressure_kPa: record.pressure_kPa ?? book.gun.pressure_kPa,
					fluid: record.fluid ?? book.gun.fluid,
				},
				check: book.check && { ...book.check, differed: null },
			};
		case 'gun.checked':
			return {
				...book,
				check: null,
				checked: { ...record, at, began: book.check?.began ?? at },
				gun: { ...book.gun, horns: record.horns },
			};
		case 'batch.started':
			return {
				...book,
				batches: new Map(book.batches).set(record.batch, {
					material: record.material,
					by: record.by,
					ratio: record.ratio,
					make_mL: record.make_mL,
					amounts: {},
					level: 0,
					hardened: null,
					inHandSince: null,
					standing: null,
					pot_mL: null,
					poured: false,
					seconds: null,
					read_C: null,
					finer: false,
				}),
			};
		case 'batch.poured':
		case 'batch.found':
			return changeBatch(book, record.batch, batch => levelRead(batch, record, at));
		case 'cup.timed':
			return changeBatch(book, record.batch, () => ({
				seconds: record.seconds,
				read_C: isTimed(record) ? record.tempC : null,
			}));
		case 'batch.ready':
			return changeBatch(book, record.batch, () => ({
				pot_mL: Math.max(0, record.volume_mL - leftBehind_mL(book.opened.sheet)),
			}));
		case 'batch.discarded':
			return changeBatch(book, record.batch, () => ({ pot_mL: 0 }));
		case 'batch.loaded':
			return { ...fillCup(book, record), gunWetSince: at, cupGun: record.ofGun ?? null };
		case 'cup.emptied':
			return {
				...potsAfter(book, record),
				...emptyCup,
				cupGun: null,
				gunWetSince: null,
				...(record.why === 'flushed' && { gun: gunUnset }),
			};
		case 'face.started':
			return {
				...changeFace(book, record.face, () => ({
					pass: {
						coat: record.coat,
						began: at,
						spray_s: record.spray_s,
						from: record.from,
						stopped: null,
						seen: null,
						watched: false,
						pulls: noPulls,
					},
				})),
				gunWetSince: at,
				sprayedIn: true,
				broken: false,
				stretch: [...book.stretch.filter(id => id !== record.face), record.face],
				triggerOff: null,
				stray: null,
			};
		case 'face.ended':
			return endFace(book, record, at);
		case 'face.late':
			return { ...book, late: record };
		case 'edge.left':
			return changeFace(book, record.face, ({ part }) =>
				part ? { part: { ...part, left: true } } : { left: record.coat },
			);
		case 'window.moved':
			return changeFace(book, record.face, () => ({ movedAt: at }));
		case 'window.set':
			return changeFace(book, record.face, () => ({ windows: record }));
		case 'stage.done':
			return changeFace(book, record.face, ({ prep }) => ({
				prep: [...prep, { step: record.stage, place: record.place, at }],
			}));
		case 'part.setAside':
			return record.faces.reduce(
				(sum, id) =>
					changeFace(sum, id, ({ laid, part }) => {
						if (part === null && record.faulty?.includes(id) === false) return {};
						const coat = (laid.at(-1)?.coat ?? 0) + (part ? 1 : 0);
						return {
							pass: null,
							part: null,
							aside: { why: record.why, since: at, coat, rework: [], halfSince: part?.since ?? null },
							again: false,
						};
					}),
				book,
			);
		case 'rework.done':
			return changeFace(
				{ ...book, resprayed: book.resprayed.filter(id => id !== record.face) },
				record.face,
				face => reworked(face, record, at, coatsOf(book, record.face)),
			);
		case 'wait.began':
			return { ...book, wait: record };
		case 'wait.ended':
			return { ...book, wait: null, backSince: at };
		case 'break.began':
			return {
				...book,
				faces: new Map(
					[...book.faces].map(([id, face]) => [
						id,
						face.pass && !face.pass.stopped
							? {
									...face,
									pass: {
										...face.pass,
										stopped: at,
										seen: seenLast(record, at, book.ran),
										watched: record.kind === 'overdue',
									},
								}
							: face,
					]),
				),
				break: {
					kind: book.break?.kind === 'air-lost' ? 'air-lost' : record.kind,
					since: book.break?.since ?? seenLast(record, at, book.ran),
					from: book.break?.from ?? from,
					clockBack_s: (book.break?.clockBack_s ?? 0) + setBack_s(book.last),
					gaps: book.break?.gaps ?? book.ran.gaps.length,
				},
				broken: true,
				check: null,
				triggerOff: null,
			};
		case 'break.ended': {
			/** Since the air was last read, where that was in it. */
			const since = book.break?.since ?? at;
			const unread = book.air && isLater(book.air.at, since) ? book.air.at : since;
			const held_s = atMost_s(unread, at);
			return {
				...book,
				break: null,
				wait: null,
				backSince: at,
				longestHold_s: Math.max(book.longestHold_s, held_s),
			};
		}
		case 'override.given': {
			const noted = { ...book, overrides: [...book.overrides, record] };
			if (record.rule === 'marks' && record.batch !== undefined)
				return changeBatch(noted, record.batch, () => ({ finer: true }));
			if (record.rule !== 'coats' || record.face === null) return noted;
			return changeFace(noted, record.face, () => ({ again: false, respray: true }));
		}
		case 'fault.seen':
			return {
				...book,
				faults: [...book.faults, { ...record, at }],
				...(record.gun && { gun: gunUnset }),
			};
		case 'trigger.off':
			return { ...pulled(book, false, at), triggerOff: at, stray: strayed(book, false, at, from) };
		case 'trigger.on':
			return { ...pulled(book, true, at), triggerOff: null, stray: strayed(book, true, at, from) };
		default:
			record satisfies RecordOf<Unentered>;
			return book;
	}
}
