/** `1 row`, `12 rows`, `1,200 rows`: how many there are of something, in a sentence. */
export const counted = (count: number, one: string, several = `${one}s`): string =>
	`${count.toLocaleString('en-US')} ${count === 1 ? one : several}`;
