import type { DayRecord } from '../day/records.ts';
import type { RecordOf } from '../records/of-type.ts';
import { passesOf } from '../records/passes.ts';
import { format, type UnitSystem } from '../trade/shown.ts';
import { clockOn } from './clock.ts';
import { lateSaid } from './late.ts';
import { duration } from './say.ts';
import { short, shortFace, spoken } from './spoken.ts';

const ms = (record: { at: string }): number => Date.parse(record.at);

function paint(day: readonly DayRecord[], start: RecordOf<'face.started'>): string[] {
	return start.cup.map(batch => {
		const mixed = day.find(record => record.type === 'batch.poured' && record.batch === batch);
		const age = mixed ? `${duration((ms(start) - ms(mixed)) / 1000)} after its first pour` : 'mixed earlier';
		return spoken(`Batch ${batch}`, age);
	});
}

function readUnder(day: readonly DayRecord[], start: RecordOf<'face.started'>, units: UnitSystem): string[] {
	const check = day.find(record => record.type === 'gun.checked' && record.check === start.check);
	const air = day.find(record => record.seq === start.air);
	const checked =
		check?.type === 'gun.checked'
			? [spoken('Gun check', check.size, `${duration((ms(start) - ms(check)) / 1000)} before`)]
			: [spoken('Gun check', 'none in this day')];
	if (air?.type !== 'air.read') return [...checked, spoken('Air', 'no reading')];
	const age = duration((ms(start) - ms(air)) / 1000);
	return [...checked, spoken('Air', format(air.airC, 'temperature', units), `read ${age} before`)];
}

/**
 * One coat on one face in spoken sentences: when, which paint, under which check and air, and what was seen since.
 * @returns one sentence that says so where the day did not lay it
 */
export function coatSentences(
	day: readonly DayRecord[],
	face: string,
	coat: number,
	units: UnitSystem = 'metric',
): string[] {
	const [opened] = day;
	const zone = opened?.type === 'day.opened' ? opened.zone : 'UTC';
	const topic = `${shortFace(face)}, coat ${coat}`;
	const on = (record: DayRecord) =>
		'face' in record && record.face === face && 'coat' in record && record.coat === coat;
	const mine = day.filter(on);
	const passes = passesOf(day).filter(pass => pass.face === face);
	const own = passes.filter(pass => pass.coat === coat);
	const start = own[0]?.start;
	const end = own.findLast(pass => pass.end)?.end;
	if (!start) return [spoken(topic, 'not laid this day')];
	const began = ms({ at: end?.began ?? start.at });
	const until = end ? ` to ${clockOn(ms({ at: end.ended ?? end.at }), began, zone)}` : ', not ended';
	const before = passes.findLast(pass => pass.coat < coat && pass.end && pass.end.at <= start.at)?.end;
	return [
		spoken(topic, `${clockOn(began, ms(opened ?? start), zone)}${until}`),
		...(end && end.extent !== 'all'
			? [spoken(topic, end.extent === 'part' ? 'only a part laid' : 'nothing laid')]
			: []),
		...(before ? [spoken('Wait before it', duration((ms(start) - ms(before)) / 1000))] : []),
		...(start.window === 'spray' ? [] : [spoken('Recoat window', `it said ${start.window}`)]),
		...paint(day, start),
		...readUnder(day, start, units),
		...start.overrides.map(rule => spoken('Passed over', short(rule.replaceAll('-', ' '), 4))),
		...mine.flatMap(record => {
			if (record.type === 'face.late') return [spoken('Late', lateSaid(day, record) ?? 'over its time')];
			if (record.type === 'fault.seen')
				return [
					spoken(short(record.fault.replaceAll('-', ' '), 3), `seen ${clockOn(ms(record), began, zone)}`),
				];
			if (record.type === 'face.judged') return [spoken('Verdict', record.verdict, short(record.reason, 6))];
			if (record.type === 'film.read')
				return [
					spoken(
						'Film',
						`${format(record.wet_um ?? record.dry_um ?? 0, 'film', units)} ${record.wet_um === undefined ? 'dry' : 'wet'}`,
					),
				];
			return [];
		}),
	];
}
