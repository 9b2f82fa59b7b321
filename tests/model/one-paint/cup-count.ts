import type { DayRecord, EventOf } from '../../../src/day/records.ts';
import type { Face, Job, PlannedCoat } from '../../../src/job/job.ts';
import type { Judge } from './judge.ts';

/** Readings for which a burst is sprayed on paper. */
const onPaper = ['pattern', 'card', 'pattern-height', 'flooded'];

type OnFace = { laid: number; share: number; open: boolean; from: string };

/** The cup counted from a day's records alone: what was loaded, sprayed, burst on paper and emptied. */
export class CupCount {
	cup_mL = 0;
	starts = 0;
	/** Cups whose rest was read, all their faces whole: what they were to take, and took. */
	readonly cups: { emitted_mL: number; used_mL: number }[] = [];
	readonly #job: Job;
	readonly #judge: Judge;
	readonly #faces = new Map<string, OnFace>();
	readonly #materials = new Map<string, string>();
	readonly #pots = new Map<string, number>();
	#reasoned = false;
	#since = { loaded_mL: 0, bursts_mL: 0, uses: [] as number[], emitted_mL: 0, whole: true, material: '' };

	constructor(job: Job, judge: Judge) {
		this.#job = job;
		this.#judge = judge;
		for (const { id } of job.faces) this.#faces.set(id, { laid: 0, share: 0, open: false, from: 'start' });
	}

	#coatOf(id: string | null, count?: number): { face: Face; coat: PlannedCoat; on: OnFace } | null {
		const face = this.#job.faces.find(one => one.id === id);
		const on = face && this.#faces.get(face.id);
		const coat = face?.coats[count === undefined ? (on?.laid ?? 0) : count - 1];
		return face && coat && on ? { face, coat, on } : null;
	}

	/** What a face still wants of its next coat, mL; null: none is planned. */
	wants_mL(id: string): number | null {
		const next = this.#coatOf(id);
		return next && this.#judge.takes_mL(next.face, next.coat) * (1 - next.on.share);
	}

	enter(record: DayRecord): void {
		switch (record.type) {
			case 'batch.started':
				this.#materials.set(record.batch, record.material);
				this.#begun(record);
				break;
			case 'batch.ready':
				this.#pots.set(record.batch, record.volume_mL);
				break;
			case 'batch.discarded':
				this.#pots.delete(record.batch);
				break;
			case 'batch.loaded':
				this.#load(record);
				break;
			case 'reading.taken':
				this.#burst(record);
				break;
			case 'override.given':
				this.#reasoned = true;
				break;
			case 'face.started':
				this.#start(record);
				break;
			case 'face.ended':
				this.#end(record);
				break;
			case 'cup.emptied':
				this.#emptied(record);
				break;
		}
	}

	/** A batch for a whole coat into an empty gun: losses, bursts and the risk are in it. */
	#begun({ material, make_mL, batch }: EventOf<'batch.started'>): void {
		if (this.cup_mL > 0 || this.#pots.size > 0) return;
		const coats = this.#job.faces.flatMap(({ id }) => this.#coatOf(id) ?? []);
		const first = Math.min(...coats.map(({ coat }) => coat.stage * 100 + coat.ofStage[0]));
		const its = coats.filter(({ coat }) => coat.stage * 100 + coat.ofStage[0] === first);
		const life_s = (this.#job.materials[material]?.potLife.hours ?? 0) * 3600 * 0.8;
		const work_s = its.reduce((sum, { coat, on }) => sum + 3 * coat.spray_s * (1 - on.share), 0);
		if (work_s > life_s || its.some(({ coat }) => coat.material !== material)) return;
		const uses = its.flatMap(({ face }) => this.wants_mL(face.id) ?? []);
		const { strainer_mL, pot_mL } = this.#job.gun.losses ?? { strainer_mL: 10, pot_mL: 10 };
		const burst = Math.max(...its.map(({ coat }) => this.#judge.burst_mL(coat)));
		const least = strainer_mL + pot_mL + this.#judge.inGun_mL(material, uses) + 4 * burst;
		const most = (least + (its.length - 1) * burst + 10) * 1.6 + 60 + this.#behind_mL(its, work_s);
		this.#judge.holds(
			`batch ${batch}: ${make_mL} mixed, ${least} wanted`,
			make_mL > least - 1e-6 && make_mL < Math.max(most, 60),
		);
	}

	/** … and at most what the coats of its stage behind it take that are on, by half of their flashes, within half of its life. */
	#behind_mL(its: readonly { coat: PlannedCoat }[], work_s: number): number {
		const [first] = its;
		const material = first && this.#job.materials[first.coat.material];
		if (!first || !material) return 0;
		let [time_s, sum_mL] = [work_s, 0];
		for (let nth = first.coat.ofStage[0] + 1; ; nth++) {
			const coats = this.#job.faces.flatMap(face =>
				face.coats.flatMap(coat =>
					coat.stage === first.coat.stage && coat.ofStage[0] === nth ? [{ face, coat }] : [],
				),
			);
			time_s += coats.reduce((sum, { coat }) => sum + 3 * coat.spray_s, material.flash.min_min * 30);
			if (coats.length === 0 || time_s > material.potLife.hours * 3600 * 0.5) return sum_mL;
			const bursts = (coats.length + 2) * Math.max(...coats.map(({ coat }) => this.#judge.burst_mL(coat)));
			sum_mL +=
				bursts + 1.6 * coats.reduce((sum, { face, coat }) => sum + this.#judge.takes_mL(face, coat), 0);
		}
	}

	/** Filled to a level: from there it is counted, whatever was in it before. */
	#load({ batch, volume_mL, to_mL }: EventOf<'batch.loaded'>): void {
		const material = this.#materials.get(batch) ?? '';
		const filled = to_mL ?? this.cup_mL + volume_mL;
		this.#judge.same(`filled from ${batch}`, filled, this.cup_mL + volume_mL);
		const whole = this.#since.loaded_mL === 0 || this.#since.material === material;
		this.#since = { loaded_mL: filled, bursts_mL: 0, uses: [], emitted_mL: 0, whole, material };
		this.cup_mL = filled;
	}

	#burst({ feature, face, coat }: EventOf<'reading.taken'>): void {
		if (!onPaper.includes(feature)) return;
		const its = this.#coatOf(face, coat ?? undefined);
		const burst = this.#judge.burst_mL(its?.coat ?? {});
		this.cup_mL = Math.max(0, this.cup_mL - burst);
		this.#since.bursts_mL += burst;
	}

	#start({ face: id, from }: EventOf<'face.started'>): void {
		const next = this.#coatOf(id);
		const wants = this.wants_mL(id);
		if (!next || wants === null) return;
		this.starts++;
		next.on.open = true;
		next.on.from = from;
		const checks = 4 * this.#judge.burst_mL(next.coat);
		const inGun = this.#judge.inGun_mL(next.coat.material, [...this.#since.uses, wants]);
		const short = inGun - (this.#since.loaded_mL - this.#since.bursts_mL) - checks;
		const full = this.cup_mL >= this.#job.gun.cup_mL - checks - 1e-6;
		this.#judge.holds(`${id}: started ${short} mL short of the risk`, short < 1e-6 || full || this.#reasoned);
	}

	#end({ face: id, coat: count, extent, lastStroke }: EventOf<'face.ended'>): void {
		const its = this.#coatOf(id, count);
		if (!its) return;
		const { on, face, coat } = its;
		const strokes = coat.strokes ?? 1;
		const told = lastStroke === null ? (1 + on.share) / 2 : lastStroke / Math.max(strokes, lastStroke + 1);
		const share = extent === 'all' ? 1 : extent === 'part' ? told : on.share;
		const use = (share - on.share) * this.#judge.takes_mL(face, coat);
		this.cup_mL = Math.max(0, this.cup_mL - use);
		if (this.#since.loaded_mL > 0) this.#since.uses.push(Math.max(0, use));
		if (extent === 'all' && on.from === 'start')
			this.#since.emitted_mL += this.#judge.pass(face, coat).emitted_mL;
		else this.#since.whole = false;
		on.open = false;
		on.share = extent === 'all' ? 0 : share;
		if (extent === 'all') on.laid += 1;
	}

	#emptied({ volume_mL, read }: EventOf<'cup.emptied'>): void {
		const { loaded_mL, bursts_mL, emitted_mL, whole } = this.#since;
		const used_mL = loaded_mL - (volume_mL ?? loaded_mL) - (this.#job.gun.losses?.gun_mL ?? 20) - bursts_mL;
		const open = [...this.#faces.values()].some(on => on.open);
		if (read && loaded_mL > 0 && whole && emitted_mL > 0 && used_mL > 0 && !open)
			this.cups.push({ emitted_mL, used_mL });
		this.cup_mL = 0;
		this.#since = { loaded_mL: 0, bursts_mL: 0, uses: [], emitted_mL: 0, whole: true, material: '' };
	}
}
