import { parseFragment } from 'parse5';
import { expect, test } from 'vitest';
import { gunFor, type Job } from '../../src/job/job.ts';
import {
	type FaceAsked,
	type FaceDrawn,
	faceDrawn,
	facePicture,
	scaleFor,
} from '../../src/report/pictures/face.ts';
import { cartJob } from './cart-day.ts';

const ask = (job: Job, id: string): FaceAsked => {
	const face = job.faces.find(one => one.id === id);
	const coat = face?.coats[0];
	if (!face || !coat) throw new Error(`the sheet has no ${id}`);
	return { face, coat, gun: gunFor(job, coat) };
};

const ellipse = (asked: FaceAsked): number[] => {
	const [, rx, ry] = /rx="([\d.]+)" ry="([\d.]+)"/.exec(facePicture(asked, 'one', 'us').markup) ?? [];
	return [Number(rx), Number(ry)];
};

test('faces that stand side by side are drawn on one scale, by the sizes of the sheet', async () => {
	const job = await cartJob();
	const all = job.faces.map(({ id }) => ask(job, id));
	const scale = scaleFor(all, 150);
	for (const { face, coat, gun } of all) {
		const { face: box } = faceDrawn({ face, coat, gun }, scale, 'laid');
		const [width_mm = 0, height_mm = 0] = face.size_mm ?? [];
		const drawn = (mm: number) => Math.min(Math.max(3, mm * scale.px_per_mm), scale.longest_px);
		expect(box.width, face.id).toBeCloseTo(drawn(width_mm), 0);
		expect(box.height, face.id).toBeCloseTo(drawn(height_mm), 0);
	}
	const door = faceDrawn(ask(job, 'left door/outside'), scale, 'laid').face;
	expect(door.width / door.height).toBeCloseTo(22 / 34, 2);
});

test('the fan lies across the stroke: tall where the gun goes side to side, wide where it goes up and down', async () => {
	const job = await cartJob();
	const [tallX = 0, tallY = 0] = ellipse(ask(job, 'left door/outside'));
	expect(tallY / tallX).toBeCloseTo(8 / 2, 1);
	const [wideX = 0, wideY = 0] = ellipse(ask(job, 'left door/edges'));
	expect(wideX / wideY).toBeCloseTo(8 / 2, 1);
});

test('lines grow with the picture, so that they are seen from across the shop', async () => {
	const job = await cartJob();
	const thick = (room_px: number) =>
		Number(
			/<g stroke-width="([\d.]+)"/.exec(
				facePicture(ask(job, 'left door/outside'), 'one', 'us', room_px).markup,
			)?.[1],
		);
	expect(thick(1200) / thick(300)).toBeCloseTo(4, 0);
});

test('a strip too long for its picture is drawn with a break, and nothing lies outside', async () => {
	const job = await cartJob();
	const scale = scaleFor(
		job.faces.map(({ id }) => ask(job, id)),
		150,
	);
	const rail = faceDrawn(ask(job, 'canopy rail/front'), scale, 'laid');
	expect(rail.width).toBeLessThan(170);
	const isCut = ({ drawn }: FaceDrawn) => /class="cut"/.test(drawn.markup);
	expect(isCut(rail)).toBe(true);
	expect(isCut(faceDrawn(ask(job, 'counter lid/top'), scale, 'laid'))).toBe(false);
});

test('a face of which the sheet gives an area alone is a square of it, one of pieces is one of them', async () => {
	const job = await cartJob();
	const asked = ask(job, 'left door/outside');
	const bare = { ...asked, face: { ...asked.face, size_mm: null, area_m2: 0.25 } };
	const scale = { px_per_mm: 0.1, longest_px: 150, line_px: 2 };
	expect(faceDrawn(bare, scale, 'laid').face).toMatchObject({ width: 50, height: 50 });
	const pieces = { ...bare, face: { ...bare.face, strip_mm: [40, 400] as [number, number] } };
	expect(faceDrawn(pieces, scale, 'laid').face).toMatchObject({ width: 40, height: 4 });
});

test('the picture has a name and a description, and says size, fan and stroke in words', async () => {
	const job = await cartJob();
	const [svg] = parseFragment(facePicture(ask(job, 'left door/outside'), 'door', 'us').markup).childNodes;
	const text = JSON.stringify(svg, ['tagName', 'attrs', 'name', 'value', 'childNodes']);
	expect(text).toContain('door-title door-desc');
	expect(text).toContain('left door outside, to scale');
	expect(text).toContain('22 in by 34 in, fan 8 in, strokes side to side');
});
