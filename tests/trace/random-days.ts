import type { DayEvent, DayRecord } from '../../src/day/records.ts';
import { settingsSchema } from '../../src/day/settings.ts';
import { type Random, random } from './generator/random.ts';
import { sheet } from './generator/sheet.ts';
import { iso, type Writer, writer } from './generator/writer.ts';

/** Days without sense: readings, changes, batches and faces in any order. Only what a record is, is kept. */
type Wild = {
	rng: Random;
	w: Writer;
	letters: string[];
	cup: string[];
	laid: Map<string, number>;
	faces: string[];
};

function readings({ rng, faces }: Wild): DayEvent {
	const feature = rng.pick([
		'pattern',
		'horns',
		'gauge',
		'flooded',
		'pattern-height',
		'touch',
		'batch',
	] as const);
	const matched = rng.chance(0.75);
	const value =
		feature === 'pattern'
			? matched
				? 'tall'
				: rng.pick(['wide', 'bad'])
			: feature === 'gauge'
				? matched
					? 200
					: 140
				: matched
					? 'right'
					: 'wrong';
	return {
		type: 'reading.taken',
		feature,
		value,
		wanted: feature === 'gauge' ? 200 : feature === 'pattern' ? 'tall' : 'right',
		matched,
		attempt: 1,
		check: null,
		face: rng.pick(faces),
		coat: null,
		batch: null,
		...(feature === 'touch' && { faces: [rng.pick(faces), rng.pick(faces)] }),
	};
}

function change({ rng, faces }: Wild): DayEvent {
	return rng.pick<DayEvent>([
		{
			type: 'gun.unknown',
			why: rng.pick(['break', 'wait', 'cap-turn', 'knob', 'cleaned', 'gun-fault'] as const),
		},
		{ type: 'break.began', kind: 'hold', by: 'painter' },
		{
			type: 'gun.set',
			horns: rng.pick(['level', null] as const),
			pressure_kPa: rng.pick([200, null]),
			fanHeight_mm: null,
			fluid: rng.pick(['open', null]),
		},
		{
			type: 'override.given',
			rule: rng.pick(['gun-check', 'window', 'air', 'earth']),
			reason: 'none',
			face: rng.pick(faces),
			coat: 1,
		},
		{ type: 'fault.seen', fault: 'spit', gun: true },
		{
			type: 'stage.done',
			face: rng.pick(faces),
			stage: rng.pick(['sand', 'wipe', 'tack', 'unmask'] as const),
			grit: null,
		},
	]);
}

function air({ rng, w }: Wild): void {
	const spray = rng.chance(0.7);
	w.write({
		type: 'air.read',
		airC: 21,
		humidity: spray ? 0.5 : 0.9,
		surfaceC: 20,
		dewPointC: 11,
		spray,
		reasons: spray ? [] : ['humidity'],
	});
}

function batch(wild: Wild): void {
	const { rng, w } = wild;
	const letter = String.fromCharCode(65 + wild.letters.length);
	wild.letters.push(letter);
	const materialId = rng.pick(['primer', 'topcoat']);
	w.write({
		type: 'batch.started',
		batch: letter,
		material: materialId,
		ratio: { base: 2, hardener: 1, reducer: 1 },
		by: 'volume',
		make_mL: 400,
	});
	for (const [component, level] of [
		['base', 200],
		['hardener', 300],
		['reducer', 400],
	] as const) {
		if (component !== 'base' && rng.chance(0.2)) continue;
		const found = rng.pick(['right', 'right', 'right', 'short', 'over'] as const);
		const off = found === 'right' ? 0 : found === 'short' ? -rng.pick([40, 90]) : 40;
		w.pass(30);
		w.write({
			type: 'batch.poured',
			batch: letter,
			component,
			can: 'ring',
			level_mL: level + off,
			wanted_mL: level,
			found,
		});
		if (rng.chance(0.1)) w.write({ type: 'break.began', kind: 'hold', by: 'painter' });
	}
	if (rng.chance(0.5)) {
		w.pass(rng.between(200, 2400));
		w.write({ type: 'batch.stood', batch: letter });
	}
	if (rng.chance(0.8))
		w.write({
			type: 'cup.timed',
			batch: letter,
			cup: 'ford4',
			seconds: 20,
			tempC: 21,
			fits: rng.chance(0.7),
		});
	w.write({ type: 'batch.ready', batch: letter, volume_mL: 400 });
	wild.cup = rng.chance(0.3) ? [...wild.cup.slice(-1), letter] : [letter];
}

/** Time goes by, and a trigger line tells of it or does not; a pull may be under way at its end. */
function pass({ rng, w }: Wild, line: boolean): void {
	w.pass(rng.between(1, 30));
	if (line) w.write({ type: 'trigger.on' });
	w.pass(rng.between(10, 45));
	if (line && rng.chance(0.8)) w.write({ type: 'trigger.off' });
}

function spray(wild: Wild): void {
	const { rng, w, laid } = wild;
	const face = rng.pick(wild.faces);
	const coat = Math.max(1, (laid.get(face) ?? 0) + (rng.chance(0.9) ? 1 : 0));
	const began = w.now;
	w.write({
		type: 'face.started',
		face,
		coat,
		cup: [...wild.cup],
		check: 1,
		air: null,
		overrides: rng.chance(0.05) ? ['window'] : [],
		window: rng.pick(['spray', 'spray', 'wait', 'sand'] as const),
		from: rng.chance(0.9) ? 'start' : 'part',
		spray_s: 60,
	});
	const line = rng.chance(0.6);
	pass(wild, line);
	if (rng.chance(0.2)) w.write(readings(wild));
	if (rng.chance(0.1)) w.write({ type: 'break.began', kind: 'hold', by: 'painter' });
	pass(wild, line);
	const estimated = rng.chance(0.1);
	w.write({
		type: 'face.ended',
		face,
		coat,
		extent: rng.pick(['all', 'all', 'all', 'part', 'none'] as const),
		lastStroke: null,
		estimated,
		...(estimated && { began: iso(began), ended: iso(w.now) }),
	});
	laid.set(face, coat);
	if (rng.chance(0.2))
		w.write({ type: 'film.read', face, coat, wet_um: rng.pick([60, 120, 125, 200]), by: 'comb' });
}

/** Two wild days of one job. */
export function wildDays(seed: number): DayRecord[][] {
	const rng = random(seed);
	const job = sheet(rng, rng.whole(3, 6));
	const faces = job.faces.map(face => face.id);
	const start = Date.UTC(2027, 4, 4, 7);
	const wild: Wild = { rng, w: writer(start), letters: [], cup: [], laid: new Map(), faces };
	return [0, 1].map(day => {
		wild.w = writer(start + day * 86_400_000);
		wild.cup = wild.letters.slice(-1);
		wild.w.write({
			type: 'day.opened',
			v: 1,
			program: '0',
			job: job.name,
			sheet: job,
			lists: [],
			settings: settingsSchema.parse({}),
			clock: 'real',
			zone: 'UTC',
			cans: [],
			before: { faces: {}, letters: wild.letters.length + day },
		});
		const steps = rng.whole(10, 30);
		for (let step = 0; step < steps; step++) {
			wild.w.pass(rng.chance(0.1) ? rng.between(1000, 9000) : rng.between(5, 200));
			const what = rng.next();
			if (wild.cup.length === 0 || what < 0.08) batch(wild);
			else if (what < 0.45) spray(wild);
			else if (what < 0.7) wild.w.write(readings(wild));
			else if (what < 0.78) air(wild);
			else wild.w.write(change(wild));
		}
		wild.w.pass(60);
		if (rng.chance(0.8)) wild.w.write({ type: 'day.closed', job: job.name, why: 'done' });
		return wild.w.records;
	});
}
