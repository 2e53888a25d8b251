/** What the page that stands for a failed one says, by HTTP status. */
interface ErrorWords {
	readonly heading: string;
	/** What can be done, after the message that the server gave. */
	readonly advice: string;
}

const words: Readonly<Record<number, ErrorWords>> = {
	401: {
		heading: 'You are not signed in',
		advice:
			'The time you were signed in for may have run out, or you were signed out elsewhere. What was saved is safe.'
	},
	403: {
		heading: 'This is not for you to see',
		advice: 'Nothing is broken. If you need it for your work, ask the owner of your company.'
	},
	404: {
		heading: 'There is nothing at this address',
		advice: 'The job may have been deleted. Deleted jobs can be put back from the list of jobs.'
	},
	429: {
		heading: 'Too much at once',
		advice: 'Nothing is lost. Wait a little, then load the page again.'
	},
	503: {
		heading: 'The records can’t be reached just now',
		advice:
			'Nothing you entered is lost by this: changes on their way are kept here and sent again. Load the page again in a moment.'
	}
};

export const errorWords = (status: number): ErrorWords =>
	words[status] ?? {
		heading: 'This could not be shown',
		advice:
			'Nothing you entered is lost by this. Load the page again; if it stays, look at what the server printed.'
	};
