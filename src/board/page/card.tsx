import { coatCounted, duration, faceName } from '../../words/say.ts';
import { timerSays } from '../due.ts';
import type { DayShown } from '../shown.ts';
import { Letters } from './letters.tsx';

const mostFaces = 12;

/** How long ago, in words that stand still for a while. */
const ago = (from: number, now: number): string => `${duration(Math.max(0, now - from) / 1000)} ago`;

/** The report's picture, taken in as a drawing: no script and no style of it counts here. */
const drawInto = (markup: string) => (at: Element | null) => {
	if (!at || at.getAttribute('data-drawn') === markup) return;
	at.setAttribute('data-drawn', markup);
	const drawing = new DOMParser().parseFromString(markup, 'image/svg+xml').documentElement;
	at.replaceChildren(document.importNode(drawing, true));
};

function Faces({ faces }: Pick<DayShown, 'faces'>) {
	const more = faces.length - mostFaces;
	return (
		<ul class="faces">
			{faces.map(({ face, coats, planned, aside }) => (
				<li key={face} class={aside ? 'aside' : ''}>
					<span class="name">{faceName(face)}</span>
					<span class="count">{aside ? 'set aside' : `${coats} of ${planned}`}</span>
				</li>
			))}
			{more > 0 && <li class="more">and {more} more faces</li>}
		</ul>
	);
}

type LookIn = (day: string, name: string) => Promise<string>;

function Call({ shown, now, lookIn }: { shown: DayShown; now: number; lookIn: LookIn }) {
	const taken = (event: SubmitEvent) => {
		event.preventDefault();
		const form = event.currentTarget;
		if (!(form instanceof HTMLFormElement)) return;
		const said = form.querySelector('output');
		const name = String(new FormData(form).get('name') ?? '');
		void lookIn(shown.day, name).then(words => {
			if (said) said.textContent = words;
		});
	};
	return (
		<section class="call" aria-label={`Look in: ${shown.job}`}>
			<svg class="sign" viewBox="0 0 100 100" aria-hidden="true">
				<path d="M30 4H70L96 30V70L70 96H30L4 70V30Z" />
				<path class="bar" d="M44 20H56V60H44ZM44 68H56V80H44Z" />
			</svg>
			<div role="alert">
				<Letters text="LOOK IN" kind="word" />
			</div>
			<div>
				<p>
					{shown.job}: no answer for {duration(Math.max(0, now - shown.answered) / 1000)}. Gear on before you
					go in.
				</p>
				<form onSubmit={taken}>
					<label>
						Your name <input name="name" maxLength={60} required autocomplete="off" />
					</label>
					<button type="submit">I LOOKED IN</button>
					<output />
				</form>
			</div>
		</section>
	);
}

/** One open day. */
export function Card({ shown, now, lookIn }: { shown: DayShown; now: number; lookIn: LookIn }) {
	const { job, word, face, coat, coats, cup, faces, timers, picture, answered, heldSince, isHeard } = shown;
	return (
		<article
			class={`day is-${word.toLowerCase().replaceAll(' ', '-')}${shown.calling === null ? '' : ' calling'}`}
			aria-label={job}
			data-day={shown.day}
		>
			{shown.calling !== null && <Call {...{ shown, now, lookIn }} />}
			<div class="state">
				<Letters text={word} kind="word" />
				{picture !== null && <div class="picture" ref={drawInto(picture)} />}
			</div>
			<h2>
				<span>{job}</span>
				<span class="key">answered {ago(answered, now)}</span>
			</h2>
			{face !== null && (
				<p class="face">
					{faceName(face)}
					{coat !== null && `, ${coatCounted(coat, coats)}`}
					{cup && cup.length > 0 && `, cup ${cup.join(' + ')}`}
				</p>
			)}
			{heldSince !== null && <p class="held">Held for {duration((now - heldSince) / 1000)}</p>}
			{!isHeard && <p class="unheard">NOT HEARD: no program has it open</p>}
			{shown.trouble !== null && <p class="unheard">{shown.trouble}: this is how it stood</p>}
			<ul class="timers">
				{timers.map(timer => (
					<li key={`${timer.code} ${timer.face} ${timer.due}`}>{timerSays(timer, now, shown.zone)}</li>
				))}
			</ul>
			{shown.open > 0 && <p class="key">Left open: {shown.open}</p>}
			<Faces faces={faces} />
		</article>
	);
}
