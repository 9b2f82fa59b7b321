import { expect, test } from 'vitest';
import type { Face } from '../../src/job/job.ts';
import { rehearsed } from './rehearsed.ts';
import { smallJob } from './small-job.ts';

/** The small job with a small cup, and the gun laid over for one of its faces; each takes 90 mL. */
function leaningOn(
	index: number,
	cup_mL: number,
	cupKind: 'gravity' | 'pressure' = 'gravity',
	transfer_tolerance = 0,
) {
	const job = smallJob();
	const laidOver = (face: Face): Face => ({
		...face,
		tilt: 90,
		coats: face.coats.map(coat => ({
			...coat,
			horns: coat.stroke === 'side-to-side' ? ('upright' as const) : ('level' as const),
		})),
	});
	const faces = job.faces.map((face, place) => (place === index ? laidOver(face) : face));
	const gun = { ...job.gun, cup_mL, cupKind, transfer_tolerance };
	return rehearsed({ job: { ...job, faces, gun } });
}
const firstLoad = (day: ReturnType<typeof rehearsed>) => {
	day.toState('mix.begin');
	day.pick('amount');
	day.send('number 500');
	day.toState('load');
	return { to: day.line().do?.[0]?.to, spills: day.line().lines.some(line => /laid over/.test(line)) };
};

// Common practice, no source.
test('a cup that is laid over is filled to three quarters at most, and the day ends as it should', () => {
	const day = leaningOn(0, 200);
	expect(firstLoad(day)).toEqual({ to: 150, spills: true });
	day.toEnd();
	expect(new Set(day.ofType('face.ended').map(({ extent }) => extent))).toEqual(new Set(['all']));
	expect(day.ofType('face.ended').length).toBe(6);
	expect(day.findings()).toEqual([]);
});

test('what is sprayed before the gun is laid over may be in the cup beyond that', () => {
	expect(firstLoad(leaningOn(1, 200))).toEqual({ to: 200, spills: false });
	// At a tenth of its risk the coat's 270 mL want more than that where its transfer is so unsure, and 322 mL where it is sure.
	expect(firstLoad(leaningOn(1, 370, 'gravity', 0.2))).toEqual({ to: 368, spills: true });
	expect(firstLoad(leaningOn(1, 400))).toEqual({ to: 322, spills: false });
});

test('a face that takes more than three quarters is still filled for, and a closed pressure cup is filled whole', () => {
	// At the sheet's risk a face of 90 mL wants more than this cup holds: it is filled whole.
	expect(firstLoad(leaningOn(0, 100))).toEqual({ to: 100, spills: true });
	expect(firstLoad(leaningOn(0, 200, 'pressure'))).toEqual({ to: 200, spills: false });
});
