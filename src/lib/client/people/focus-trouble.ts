import { tick } from 'svelte';

/** Puts the focus on the first field of a form with something wrong in it, once that is said there. */
export async function focusTrouble(form: HTMLFormElement): Promise<void> {
	await tick();
	form.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
}
