import type { DayRecord, EventOf } from '../../src/day/records.ts';
import type { Material } from '../../src/job/job.ts';

/**
 * Bracket and exposure the slow way, from the bare records and the definition alone: a pass is exposed to a thing
 * unless a reading stands between it and the pass in question. Shares no code with `src/trace`.
 */
type Rec<Type extends DayRecord['type']> = DayRecord & EventOf<Type>;
type Lay = {
	day: number;
	face: string;
	coat: number;
	t0: number;
	t1: number;
	est: boolean;
	/** Seconds pulled, by a trigger line, until the pass ends or is broken off; null: no line spoke. */
	pulled: number | null;
	extent: string;
	s: Rec<'face.started'>;
};
type Say = { t: number; good: boolean };
export type Slow = { code: string; from: number; to: number; exposed: string[] };

const t = (record: { at: string }) => Date.parse(record.at);
const key = (lay: Lay) => `${lay.face}#${lay.coat}`;

function pulledIn(pass: DayRecord[]): number | null {
	const broken = pass.findIndex(r => r.type === 'break.began');
	const until = broken < 0 ? pass : pass.slice(0, broken + 1);
	const words = until.filter(r => r.type === 'trigger.on' || r.type === 'trigger.off');
	const last = until.at(-1);
	if (!words.some(r => r.type === 'trigger.on') || !last) return null;
	return words.reduce((sum, r, nth) => {
		const next = words[nth + 1];
		if (r.type !== 'trigger.on' || next?.type === 'trigger.on') return sum;
		return sum + (t(next ?? last) - t(r)) / 1000;
	}, 0);
}

function lays(days: DayRecord[][]): Lay[] {
	const found: Lay[] = [];
	for (const [day, records] of days.entries())
		for (const [at, s] of records.entries()) {
			if (s.type !== 'face.started') continue;
			const end = records
				.slice(at)
				.find(
					(r): r is Rec<'face.ended'> => r.type === 'face.ended' && r.face === s.face && r.coat === s.coat,
				);
			found.push({
				day,
				face: s.face,
				coat: s.coat,
				t0: t({ at: end?.began ?? s.at }),
				t1: t({ at: end?.ended ?? end?.at ?? s.at }),
				est: end?.estimated ?? false,
				pulled: end ? pulledIn(records.slice(at, records.indexOf(end) + 1)) : null,
				extent: end?.extent ?? 'all',
				s,
			});
		}
	return found;
}

export function slow(
	days: DayRecord[][],
	ask: { face: string; coat: number; under: boolean; codes: string[] },
): Slow[] {
	const first = days[0]?.[0];
	if (first?.type !== 'day.opened') throw new Error('no day');
	const sheet = first.sheet;
	const all = lays(days);
	const hours = days.map(records => {
		const closed = records.findLast(r => r.type === 'day.closed');
		const ends = records
			.filter(r => r.type === 'face.ended' || r.type === 'face.started' || r.type === 'day.opened')
			.map(t);
		return { opened: t(records[0] ?? first), closed: closed ? t(closed) : Math.max(...ends) };
	});
	const day = (n: number) => hours[n] ?? { opened: 0, closed: 0 };
	const of = (n: number) => all.filter(lay => lay.day === n);
	const recs = (n: number) => days[n] ?? [];
	const plan = (lay: Lay) => {
		const coats = sheet.faces.find(face => face.id === lay.face)?.coats ?? [];
		return coats[Math.min(lay.coat, coats.length) - 1];
	};
	const stuff = (lay: Lay): Material | undefined => sheet.materials[plan(lay)?.material ?? ''];
	const below = (lay: Lay) =>
		all
			.filter(o => o.face === lay.face && o.coat < lay.coat && o.t1 <= lay.t0)
			.sort((a, b) => a.t0 - b.t0)
			.at(-1);

	function between(F: Lay, says: Say[]): Omit<Slow, 'code'> {
		const ends = (say: Say) => {
			if (say.good) return true;
			const mend = says.filter(other => other.good && other.t >= say.t).map(other => other.t);
			const until = mend.length > 0 ? Math.min(...mend) : Number.POSITIVE_INFINITY;
			return !of(F.day).some(P => P.t0 >= say.t && P.t0 < until);
		};
		const clears = (P: Lay) =>
			says.some(say => say.good && say.t <= F.t0 && say.t >= P.t1) ||
			says.some(say => say.t >= F.t1 && say.t <= P.t0 && ends(say));
		const past = says.filter(say => say.good && say.t <= F.t0).map(say => say.t);
		const next = says.filter(say => say.t >= F.t1 && ends(say)).map(say => say.t);
		return {
			from: past.length > 0 ? Math.max(...past) : day(F.day).opened,
			to: next.length > 0 ? Math.min(...next) : day(F.day).closed,
			exposed: of(F.day)
				.filter(P => !clears(P))
				.map(key),
		};
	}

	const heard = (n: number, features: string[], judge: (r: Rec<'reading.taken'>) => boolean | null): Say[] =>
		recs(n).flatMap(r => {
			if (r.type !== 'reading.taken' || !features.includes(r.feature)) return [];
			const good = judge(r);
			return good === null ? [] : [{ t: t(r), good }];
		});
	const matched = (r: Rec<'reading.taken'>) => r.matched;

	/** Faces with evidence of their own: exposed unless one that was right stands between. */
	function own(
		F: Lay,
		fine: (lay: Lay) => boolean | null,
		spared = (_: Lay) => false,
	): Omit<Slow, 'code'> | null {
		if (fine(F) !== false) return null;
		const same = (P: Lay) => P.face === F.face && P.coat === F.coat;
		const right = of(F.day).filter(P => !same(P) && fine(P) === true);
		const cut = (P: Lay) => right.some(R => (R.t1 <= F.t0 && R.t1 >= P.t1) || (R.t0 >= F.t1 && R.t0 <= P.t0));
		const past = right.filter(R => R.t1 <= F.t0).map(R => R.t1);
		const next = right.filter(R => R.t0 >= F.t1).map(R => R.t0);
		return {
			from: past.length > 0 ? Math.max(...past) : day(F.day).opened,
			to: next.length > 0 ? Math.min(...next) : day(F.day).closed,
			exposed: of(F.day)
				.filter(P => fine(P) === false && !cut(P) && (same(P) || !spared(P)))
				.map(key),
		};
	}

	const touch = (lay: Lay, since: number) =>
		days
			.flat()
			.filter((r): r is Rec<'reading.taken'> => r.type === 'reading.taken' && r.feature === 'touch')
			.filter(
				r => t(r) >= since && t(r) <= lay.t0 && (r.face === lay.face || (r.faces ?? []).includes(lay.face)),
			)
			.at(-1);
	const flashed = (lay: Lay): boolean | null => {
		const under = below(lay);
		if (!under || lay.s.from === 'part') return null;
		const felt = touch(lay, under.t1);
		if (felt && !felt.matched) return false;
		const material = stuff(lay);
		if (!material || plan(under)?.material !== plan(lay)?.material || under.day !== lay.day)
			return lay.s.window === 'wait' ? false : lay.s.window !== 'spray' || felt !== undefined;
		const read = recs(lay.day)
			.filter((r): r is Rec<'air.read'> => r.type === 'air.read' && t(r) <= lay.t0)
			.at(-1);
		const warm = 2 ** ((material.flash.at_C - (read?.surfaceC ?? material.flash.at_C)) / 10);
		const least = material.flash.min_min * Math.min(1, warm);
		const short = (lay.t0 - under.t1) / 60_000 < least * 0.99;
		if ((short && !lay.est && !under.est) || lay.s.window === 'wait') return false;
		return felt !== undefined && !short;
	};
	const windowed = (lay: Lay): boolean | null => {
		const under = below(lay);
		if (!under || lay.s.from === 'part') return null;
		const max = stuff(lay)?.flash.max_min ?? Number.POSITIVE_INFINITY;
		const late = under.day === lay.day && !lay.est && (lay.t0 - under.t1) / 60_000 > max;
		return !late && lay.s.window !== 'sand' && lay.s.window !== 'scuff';
	};
	/** Film read ÷ film wanted. */
	const shareRead = (lay: Lay): number | null => {
		const read = days
			.flat()
			.filter(
				(r): r is Rec<'film.read'> => r.type === 'film.read' && r.face === lay.face && r.coat === lay.coat,
			)
			.at(-1);
		const material = stuff(lay);
		const kind = plan(lay)?.kind;
		const coat = kind && material?.coats[kind];
		if (!read?.wet_um || !material || !coat) return null;
		const parts = material.ratio.base + material.ratio.hardener;
		return read.wet_um / ((coat.dry_um * (parts + coat.reducer_parts)) / (material.solids * parts));
	};
	const filmed = (heavy: boolean) => (lay: Lay) => {
		if (lay.extent === 'none') return null;
		const share = shareRead(lay);
		return share !== null && (heavy ? share < 1.25 : share > 0.8);
	};
	/** The pulls of a pass, where they are its own and no film was read, speak for the opposite. */
	const paced = (heavy: boolean) => (lay: Lay) => {
		if (lay.pulled === null || lay.est || lay.extent !== 'all' || shareRead(lay) !== null) return false;
		const share = lay.pulled / lay.s.spray_s;
		return heavy ? share <= 0.8 : share >= 1.25;
	};

	function mixed(F: Lay, code: string): Slow[] {
		return F.s.cup.flatMap(letter => {
			const n = days.findIndex(records =>
				records.some(r => r.type === 'batch.started' && r.batch === letter),
			);
			const story = recs(n).filter(r => 'batch' in r && r.batch === letter);
			const started = story.find((r): r is Rec<'batch.started'> => r.type === 'batch.started');
			if (!started) return [];
			const ready = story.find(r => r.type === 'batch.ready');
			const pours = story.filter((r): r is Rec<'batch.poured'> => r.type === 'batch.poured');
			const material = sheet.materials[started.material];
			const share = (component: string) => {
				const at = pours.findIndex(pour => pour.component === component);
				const pour = pours[at];
				if (!pour) return null;
				const before = pours[at - 1]?.level_mL ?? 0;
				const wanted = pour.wanted_mL ?? 0;
				if (wanted <= before) return { right: 1, short: 0.7, over: 1.5 }[pour.found];
				return ((pour.level_mL ?? 0) - before) / (wanted - before);
			};
			const hardener = share('hardener');
			const odd = pours.filter(pour => pour.found !== 'right' && pour.component !== 'base');
			const broken = recs(n).some(
				r =>
					r.type === 'break.began' && r.seq > started.seq && r.seq < (ready?.seq ?? Number.POSITIVE_INFINITY),
			);
			const stood = story.find(r => r.type === 'batch.stood');
			const lastPour = pours.at(-1);
			const standing = material?.standing_min ?? 0;
			const mixedAt = t(pours.find(pour => pour.component === 'hardener') ?? started);
			const hot = Math.max(
				material?.potLife.at_C ?? 0,
				...recs(n)
					.filter((r): r is Rec<'air.read'> => r.type === 'air.read')
					.map(r => r.airC),
			);
			const life =
				(material?.potLife.hours ?? 0) * 2 ** (((material?.potLife.at_C ?? 0) - hot) / 10) * 3_600_000;
			const open: Record<string, boolean> = {
				'no-hardener': hardener === null || hardener < 0.25,
				'wrong-can': true,
				'wrong-ratio': broken || odd.some(pour => pour.component === 'reducer' || (hardener ?? 0) >= 0.25),
				'not-stood':
					standing > 0 && (!stood || (t(stood) - t(lastPour ?? started)) / 60_000 < standing * 0.95),
				'viscosity-off': !(
					story.filter((r): r is Rec<'cup.timed'> => r.type === 'cup.timed').at(-1)?.fits ?? false
				),
				'batch-too-old': F.t1 > mixedAt + life,
			};
			if (!open[code]) return [];
			const from = code === 'batch-too-old' ? mixedAt + life : t(started);
			const got = all.filter(P => P.s.cup.includes(letter) && P.t1 > from);
			return [{ code, from, to: Math.max(...got.map(P => P.t1)), exposed: got.map(key) }];
		});
	}

	const again = (P: Lay): boolean =>
		P.coat > (sheet.faces.find(face => face.id === P.face)?.coats.length ?? P.coat) ||
		(P.s.from === 'start' &&
			all.some(o => o !== P && key(o) === key(P) && o.t1 <= P.t0 && o.extent !== 'none'));
	const last = new Map(all.toSorted((a, b) => a.t0 - b.t0).map(lay => [lay.face, lay]));
	const stageTimes = days
		.flat()
		.filter(r => r.type === 'stage.done')
		.map(t);

	function one(F: Lay, code: string): Slow[] {
		const plain = (found: Omit<Slow, 'code'> | null): Slow[] => (found ? [{ code, ...found }] : []);
		const heavy = code === 'film-too-heavy';
		const fluid = () => between(F, heard(F.day, ['flooded', 'pattern-height'], matched));
		switch (code) {
			case 'fan-along-stroke':
				return plain(
					between(
						F,
						heard(F.day, ['pattern', 'card', 'horns'], r => (r.value === 'bad' ? null : r.matched)),
					),
				);
			case 'bad-pattern':
				return plain(
					between(
						F,
						heard(F.day, ['pattern', 'card', 'flooded', 'pattern-height'], r =>
							r.feature === 'pattern' ? r.value !== 'bad' : r.matched,
						),
					),
				);
			case 'pressure-off':
				return plain(between(F, heard(F.day, ['gauge'], matched)));
			case 'film-too-heavy':
			case 'film-too-light':
				return [...plain(fluid()), ...plain(own(F, filmed(heavy), paced(heavy)))];
			case 'air-out-of-limits':
				return plain(
					between(
						F,
						recs(F.day)
							.filter((r): r is Rec<'air.read'> => r.type === 'air.read')
							.map(r => ({ t: t(r), good: r.spray })),
					),
				);
			case 'coat-too-early':
				return plain(own(F, flashed));
			case 'window-missed':
				return plain(own(F, windowed));
			case 'too-many-coats':
				return again(F) ? [{ code, from: F.t0, to: F.t1, exposed: all.filter(again).map(key) }] : [];
			case 'face-missed':
				return [{ code, from: F.t0, to: F.t1, exposed: [key(F)] }];
			case 'surface':
				return [{ code, from: day(F.day).opened, to: day(F.day).closed, exposed: of(F.day).map(key) }];
			case 'handling':
				return [
					{
						code,
						from: F.t1,
						to: Math.max(F.t1, ...stageTimes, ...hours.map(({ closed }) => closed)),
						exposed: [...new Set([...[...last.values()].map(key), key(F)])],
					},
				];
			default:
				return mixed(F, code);
		}
	}
	return all
		.filter(F => F.face === ask.face && (F.coat === ask.coat || (ask.under && F.coat < ask.coat)))
		.flatMap(F => ask.codes.flatMap(code => one(F, code)));
}
