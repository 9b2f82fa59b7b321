import type { DayRecord } from '../../../src/day/records.ts';
import type { Job } from '../../../src/job/job.ts';
import type { Chance } from '../keys/chance.ts';

/** One value of the normal law. Source: Box and Muller (from memory). */
const normal = (chance: Chance): number =>
	Math.sqrt(-2 * Math.log(1 - chance.next())) * Math.cos(2 * Math.PI * chance.next());

/** Spreads of a shop, as one deviation of a logarithm: of all faces of a day alike, and of each by itself. */
type Spread = { common: number; own: number };

/** … as the sheet has them: its transfer, 5 % beside it, and 10 % from face to face. */
export const spreadOf = ({ gun }: Job): Spread => ({
	common: Math.hypot(gun.transfer_tolerance / gun.transfer, 0.05),
	own: 0.1,
});

const onPaper = ['pattern', 'card', 'pattern-height', 'flooded'];

/** What is really in the cup, which the program never sees: each pass takes what it takes. */
export class TrueCup {
	/** Batches that a face was sprayed with, passes, and those that ran short inside their face. */
	readonly batches = new Set<string>();
	passes = 0;
	short = 0;
	#mL = 0;
	#letters: string[] = [];
	readonly #pots = new Map<string, number>();
	readonly #job: Job;
	readonly #chance: Chance;
	readonly #spread: Spread;
	readonly #days = new Map<string, number>();
	readonly #own = new Map<string, number>();

	constructor(job: Job, chance: Chance, spread: Spread) {
		this.#job = job;
		this.#chance = chance;
		this.#spread = spread;
	}

	#coat(face: string, coat: number) {
		return this.#job.faces.find(({ id }) => id === face)?.coats[coat - 1];
	}

	/** What sprays out of it: the rest stays in the gun and on the wall of the cup. */
	get left_mL(): number {
		return Math.max(0, this.#mL - (this.#job.gun.losses?.gun_mL ?? 20));
	}

	#drawn(known: Map<string, number>, key: string, deviation: number): number {
		const factor = known.get(key) ?? Math.exp(deviation * normal(this.#chance));
		known.set(key, factor);
		return factor;
	}

	/** What a whole coat of a face really takes, mL. */
	takes_mL(face: string, count: number): number {
		const coat = this.#coat(face, count);
		if (!coat) return 0;
		const shop = this.#drawn(this.#days, coat.material, this.#spread.common);
		const itself = this.#drawn(this.#own, `${face}\u0000${count}`, this.#spread.own);
		return coat.volume_mL * shop * itself;
	}

	/** What a pass takes, or as much as there is: the share that it came to. */
	sprayed(face: string, count: number, share: number): number {
		const wants = this.takes_mL(face, count) * share;
		const got = Math.min(wants, this.left_mL);
		this.passes++;
		for (const letter of this.#letters) this.batches.add(letter);
		this.#mL -= got;
		if (got < wants) this.short++;
		return wants > 0 ? got / wants : 1;
	}

	/** How full it gets from a pot that it is to be filled to a level from, mL. */
	reaches_mL(batch: string, to_mL: number): number {
		return Math.max(this.#mL, Math.min(to_mL, this.#mL + (this.#pots.get(batch) ?? 0)));
	}

	enter(record: DayRecord): void {
		if (record.type === 'batch.ready') {
			const { strainer_mL, pot_mL } = this.#job.gun.losses ?? { strainer_mL: 10, pot_mL: 10 };
			this.#pots.set(record.batch, Math.max(0, record.volume_mL - strainer_mL - pot_mL));
		} else if (record.type === 'batch.loaded') {
			const poured_mL = this.reaches_mL(record.batch, record.to_mL ?? 0) - this.#mL;
			this.#mL += poured_mL;
			this.#pots.set(record.batch, (this.#pots.get(record.batch) ?? 0) - poured_mL);
			this.#letters.push(record.batch);
		} else if (record.type === 'cup.emptied') {
			this.#mL = 0;
			this.#letters = [];
		} else if (record.type === 'reading.taken' && onPaper.includes(record.feature)) {
			const coat = record.face === null ? undefined : this.#coat(record.face, record.coat ?? 1);
			const flow = coat?.flow_mL_per_min ?? this.#job.gun.flow_mL_per_min;
			this.#mL = Math.max(0, this.#mL - ((this.#job.gun.losses?.burst_s ?? 1) * flow) / 60);
		}
	}
}
