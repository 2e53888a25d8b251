/** How this machine is called by itself. */

export const isLoopbackAddress = (address: string): boolean =>
	/^(::ffff:)?127\.\d{1,3}\.\d{1,3}\.\d{1,3}$/u.test(address) || address === '::1';

/** @param hostname as it stands in a URL, an IPv6 address in brackets */
export const isLocalName = (hostname: string): boolean =>
	hostname === 'localhost' || hostname === '[::1]' || /^127\.\d{1,3}\.\d{1,3}\.\d{1,3}$/u.test(hostname);
