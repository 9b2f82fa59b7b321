import { planData } from '../../../src/cli/plan-data.ts';
import type { DayRecord } from '../../../src/day/records.ts';
import type { Face, Job, PlannedCoat } from '../../../src/job/job.ts';
import { planJob } from '../../../src/plan/job-plan.ts';
import { taughtBy } from '../../../src/plan/rates.ts';
import { tablesOf } from '../../../src/report/tables/tables.ts';
import { ownInGun_mL, ownPass, type Rate } from './own.ts';

/** Whether plan, day, cup and report say one figure of paint, and the one that flow × time comes to. */

export type Rates = Readonly<Record<string, Rate>>;

const near = (one: number, other: number, off = 1e-6): boolean =>
	Math.abs(one - other) <= off * Math.max(1, Math.abs(other));

/** Figures that were compared, and what differed. */
export type Judged = { figures: number; says: string[] };

export class Judge {
	readonly judged: Judged = { figures: 0, says: [] };
	readonly #job: Job;
	readonly #rates: Rates;
	readonly #own = new Map<PlannedCoat, ReturnType<typeof ownPass>>();

	constructor(job: Job, rates: Rates) {
		this.#job = job;
		this.#rates = rates;
	}

	same(what: string, said: number, own: number, off?: number): void {
		this.judged.figures++;
		if (!near(said, own, off)) this.judged.says.push(`${what}: ${said}, worked out anew ${own}`);
	}

	holds(what: string, is: boolean): void {
		this.judged.figures++;
		if (!is) this.judged.says.push(what);
	}

	pass(face: Face, coat: PlannedCoat) {
		const known = this.#own.get(coat) ?? ownPass(this.#job, face, coat);
		this.#own.set(coat, known);
		return known;
	}

	/** Paint of a coat in this shop, mL, for plan, day, cup and report. */
	takes_mL(face: Face, coat: PlannedCoat): number {
		return this.pass(face, coat).emitted_mL * (this.#rates[coat.material]?.factor ?? 1);
	}

	inGun_mL(material: string, uses: readonly number[]): number {
		return ownInGun_mL(this.#job, uses, this.#rates[material]);
	}

	/** The sheet's own coats. */
	sheet(): void {
		for (const face of this.#job.faces)
			for (const [nth, coat] of face.coats.entries()) {
				const own = this.pass(face, coat);
				const name = `${face.id}, coat ${nth + 1}`;
				this.same(`${name}: paint planned`, coat.volume_mL, own.emitted_mL);
				this.same(`${name}: time planned`, coat.spray_s, own.elapsed_s);
				this.same(`${name}: paint that lands`, coat.landed_mL ?? 0, own.landed_mL);
				this.holds(
					`${name}: landed ÷ (transfer × capture) is not what leaves the gun`,
					near((coat.landed_mL ?? 0) / (this.#job.gun.transfer * (coat.capture ?? 0)), coat.volume_mL),
				);
			}
	}

	/** The batches of `plan`. */
	plan(): void {
		const learned = Object.fromEntries(
			Object.entries(this.#rates).map(([id, { factor, unsure }]) => [
				id,
				{ time: null, use: { factor, unsure, cups: 1 }, timed: 0 },
			]),
		);
		const job = this.#job;
		const { batches } = planData(planJob({ job, start: Date.parse('2027-03-02T08:00:00Z'), learned }));
		const total = { mixed: 0 };
		for (const { letter, needed_mL, volume_mL, serves } of batches) {
			const coats = serves.flatMap(({ face: id, coat }) => {
				const face = job.faces.find(one => one.id === id);
				const its = face?.coats[coat - 1];
				return face && its ? [{ face, coat: its }] : [];
			});
			const uses = coats.map(({ face, coat }) => this.takes_mL(face, coat));
			const sum = uses.reduce((total, use) => total + use, 0);
			this.same(`batch ${letter}: paint of its faces`, needed_mL, sum);
			total.mixed += volume_mL;
		}
		/** Every face's coat is in some cup; the first batch is for a coat whole, at its risk. */
		const [first] = batches;
		const coatOf = (one: { face: string; coat: number }) => {
			const face = job.faces.find(({ id }) => id === one.face);
			const coat = face?.coats[one.coat - 1];
			return face && coat ? [{ face, coat }] : [];
		};
		const [begins] = first?.serves.flatMap(coatOf) ?? [];
		const its = (first?.serves ?? [])
			.flatMap(coatOf)
			.filter(({ coat }) => coat.stage === begins?.coat.stage && coat.ofStage[0] === begins.coat.ofStage[0]);
		const uses = its.map(({ face, coat }) => this.takes_mL(face, coat));
		const inGun = this.inGun_mL(first?.material ?? '', uses) + this.#bursts_mL(its);
		if (first)
			this.holds(
				`batch ${first.letter}: ${first.volume_mL} planned, ${this.#pot_mL() + inGun} wanted`,
				first.volume_mL > this.#pot_mL() + inGun - 1e-6,
			);
		const all = job.faces.flatMap(face => face.coats.map(coat => this.takes_mL(face, coat)));
		this.holds('less is planned than all coats take', total.mixed > all.reduce((sum, use) => sum + use, 0));
	}

	#pot_mL(): number {
		const { strainer_mL, pot_mL } = this.#job.gun.losses ?? { strainer_mL: 10, pot_mL: 10 };
		return strainer_mL + pot_mL;
	}

	/** One burst at a coat's flow. */
	burst_mL({
		flow_mL_per_min = this.#job.gun.flow_mL_per_min,
	}: Pick<PlannedCoat, 'flow_mL_per_min'>): number {
		return ((this.#job.gun.losses?.burst_s ?? 1) * flow_mL_per_min) / 60;
	}

	/** Four at the first check, two more at another coat, one at a stop at the gun. */
	#bursts_mL(coats: readonly { face: Face; coat: PlannedCoat }[]): number {
		let sum = 0;
		for (const [nth, { face, coat }] of coats.entries()) {
			const last = coats[nth - 1];
			const again = last && last.coat.stage === coat.stage && last.coat.ofStage[0] === coat.ofStage[0];
			const turned = last && (last.coat.horns !== coat.horns || last.face.fanHeight_mm !== face.fanHeight_mm);
			sum += this.burst_mL(coat) * (!last ? 4 : !again ? 2 : turned ? 1 : 0);
		}
		return sum;
	}

	/** The films of the report, and what its shop learns of the day. */
	report(records: readonly DayRecord[]): void {
		for (const row of tablesOf(records).film) {
			const face = this.#job.faces.find(({ id }) => id === row.face);
			const coat = face?.coats[row.coat - 1];
			if (!face || !coat) continue;
			const name = `report, ${row.face}, coat ${row.coat}`;
			this.same(`${name}: paint wanted`, row.wants_mL, this.takes_mL(face, coat));
			this.same(`${name}: paint that lands`, row.landed_mL ?? 0, this.pass(face, coat).landed_mL);
		}
	}

	/** @param cups paint and use of each cup whose rest was read, by own count */
	learnt(records: readonly DayRecord[], cups: readonly { emitted_mL: number; used_mL: number }[]): void {
		const real = records.map(record =>
			record.type === 'day.opened' ? { ...record, clock: 'real' as const } : record,
		);
		const found = taughtBy(real).flatMap(one => one.cups);
		this.same('cups that teach', found.length, cups.length);
		const sum = (of: readonly { emitted_mL: number; used_mL: number }[], key: 'emitted_mL' | 'used_mL') =>
			of.reduce((total, cup) => total + cup[key], 0);
		for (const key of ['emitted_mL', 'used_mL'] as const)
			this.same(`learned of cups, ${key}`, sum(found, key), sum(cups, key));
	}
}
